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
});

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
