/** What would make the job's own lens work, worked out once the figures rest: a search can take a tenth of a second. */
import { useEffect, useState } from 'react';
import type { WhatWouldWork } from '../../../core/plan/nearest-change.ts';
import { whatWouldWork } from '../../../core/plan/nearest-change.ts';
import { presentLens } from '../../../job/facts/finder-wish.ts';
import { offerInUse } from '../../../materials/lens-offers.ts';
import { useJob, useShelves } from '../../studio.ts';

const REST_MS = 150;

/** Undefined until it is known for the first time, and where there is no such lens. */
export const useWhatWouldWork = (): WhatWouldWork | undefined => {
  const job = useJob();
  const shelves = useShelves((state) => state.shelves);
  const [answer, setAnswer] = useState<WhatWouldWork>();
  useEffect(() => {
    const timer = setTimeout(() => {
      const present = presentLens(job, offerInUse(job, shelves));
      setAnswer(present === undefined ? undefined : whatWouldWork(present));
    }, REST_MS);
    return () => clearTimeout(timer);
  }, [job, shelves]);
  return answer;
};
