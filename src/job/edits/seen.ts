/** Changes to what is seen of the print, each a step to undo. */
import type { SymptomId } from '../../core/mend/symptoms.ts';
import { forgetSeeing, seeingOf, setSeeing } from '../facts/mend.ts';
import type { JobEdit } from './edit.ts';
import { lookKey } from './edit.ts';

type CountsChange = NonNullable<Parameters<typeof setSeeing>[1]['counts']>;

export const toggleSymptom = (id: SymptomId): JobEdit => [
  'what it looks like',
  (job) => {
    const { chosen } = seeingOf(job);
    const without = chosen.filter((other) => other !== id);
    return setSeeing(job, {
      chosen: without.length === chosen.length ? [...chosen, id] : without,
    });
  },
  lookKey('symptoms'),
];

export const changeCounts = (label: string, counts: CountsChange): JobEdit => [
  label,
  (job) => setSeeing(job, { counts }),
  'patch' in counts ? lookKey('patch') : `seeing.${Object.keys(counts).join()}`,
];

/** Forgets what was seen: another print is on the table. */
export const beginAnew = (): JobEdit => ['a new look', forgetSeeing];
