import { useMemo } from 'react';
import type { Costs } from '../../../materials/costs.ts';
import { costsOf } from '../../../materials/costs.ts';
import type { Chosen } from '../../../materials/cut-list.ts';
import { chosenOf } from '../../../materials/cut-list.ts';
import { useJob, useShelves } from '../../studio.ts';

/** The shelf entries that the job is made of, and what it then costs. */
export const useCosts = (): { readonly chosen: Chosen; readonly costs: Costs } => {
  const job = useJob();
  const shelves = useShelves((state) => state.shelves);
  return useMemo(() => {
    const chosen = chosenOf(job, shelves);
    return { chosen, costs: costsOf(job, chosen) };
  }, [job, shelves]);
};
