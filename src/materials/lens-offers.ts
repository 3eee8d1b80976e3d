/** The lens sheets that are looked among: the person's own that are large enough, and types that are commonly sold. */
import type { LensOffer } from '../core/plan/finder.ts';
import { lensTypes } from '../core/plan/lens-types.ts';
import { mm } from '../core/units/units.ts';
import { trimmed } from '../core/units/format.ts';
import { alongMm } from '../job/facts/plan.ts';
import { acrossMm } from '../job/facts/sheet.ts';
import type { Job } from '../job/schema/job.ts';
import type { LensEntry, Shelves } from './shelves.ts';
import { isUntouchedStarter } from './starters.ts';
import { hasRibsOf, isLensOfJob, stockOf } from './use-in-job.ts';

const holds = (job: Job, { widthMm, heightMm }: LensEntry): boolean =>
  widthMm >= acrossMm(job) && heightMm >= alongMm(job);

/** What the person calls it, its source and its price; `lens` has no more than the trace needs. */
const ownOffer = ({
  id,
  name,
  pitchMm,
  thicknessMm,
  index,
  radiusMm,
  price,
  offcutOf,
}: LensEntry): LensOffer => ({
  id,
  name,
  source: 'own',
  lens: {
    pitchMm: mm(pitchMm),
    thicknessMm: mm(thicknessMm),
    index,
    ...(radiusMm === undefined ? {} : { radiusMm: mm(radiusMm) }),
  },
  ...(price === undefined ? {} : { price }),
  ...(offcutOf === undefined ? {} : { isOffcut: true }),
});

/** Who the lens on the job sheet is: the person's own where it came from the Workshop and still has its numbers. */
export const offerInUse = (job: Job, { lenses }: Shelves): Omit<LensOffer, 'lens'> => {
  const { lensId } = stockOf(job);
  const entry = lenses.find((one) => one.id === lensId && isLensOfJob(job, one));
  if (entry === undefined)
    return { id: 'in-use', name: 'The lens on the job sheet', source: 'own' };
  const { lens: _lens, ...offer } = ownOffer(entry);
  return offer;
};

/** Whether the job has this lens, to the last figure that `takeFound` would set; an entry of the shelves by its name too. */
export const isInUse = (job: Job, { id, source, lens }: LensOffer): boolean => {
  const { lensId } = stockOf(job);
  return (source === 'own' ? lensId === id : lensId === undefined) && hasRibsOf(job, lens);
};

const typeOffers = (): LensOffer[] =>
  lensTypes.map(({ lpi, coneDeg, lens }) => ({
    id: `type-${lpi}-${coneDeg}`,
    name: `${trimmed(lpi, 2)} LPI, cone ${coneDeg}°`,
    source: 'type',
    lens,
  }));

export const lensOffers = (job: Job, { lenses }: Shelves): LensOffer[] => [
  ...lenses.filter((entry) => !isUntouchedStarter(entry) && holds(job, entry)).map(ownOffer),
  ...typeOffers(),
];
