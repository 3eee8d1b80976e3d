/** The proof of the print on the table, with the faults that Mend found. */
import type { PhaseTerms } from '../../core/mend/fault.ts';
import { phaseTerms } from '../../core/mend/fault.ts';
import type { Job } from '../../job/schema/job.ts';
import { believedFaults, diagnose } from '../../job/facts/mend.ts';
import type { Seeing } from '../../job/schema/trial.ts';
import type { ProofView } from '../../core/proof/scene.ts';
import type { ProofSources } from '../../core/proof/sources.ts';
import type { ViewState } from '../../state/view.ts';

/** Kept, because every tilt needs it and it changes rarely. */
const known = new WeakMap<Seeing, PhaseTerms>();

type Shows = ViewState['proofShows'];

const termsOf = ({ seeing }: Job, shows: Shows): PhaseTerms | undefined => {
  if (seeing === undefined || shows !== 'printed') return undefined;
  const found = known.get(seeing);
  if (found !== undefined) return found;
  const diagnosis = diagnose(seeing);
  const terms = phaseTerms(diagnosis.setup, believedFaults(diagnosis));
  known.set(seeing, terms);
  return terms;
};

/** Reverses the frames if the print has them reversed. */
export const sourcesAsShown = (job: Job, shows: Shows, sources: ProofSources): ProofSources =>
  termsOf(job, shows)?.reversed === true ? { ...sources, reversed: true } : sources;

/** Adds the slide and the blur that pitch, skew, place, air and ink cause. */
export const viewAsShown = (job: Job, shows: Shows, view: ProofView): ProofView => {
  const terms = termsOf(job, shows);
  if (terms === undefined) return view;
  const { middle, across, along, moreSpread, ribsCrossed } = terms;
  return {
    ...view,
    slide: { offset: middle - 0.5, across, along },
    blur: {
      ...view.blur,
      // Ribs that cross the woven lines show all views at once.
      spot: ribsCrossed ? 1 : Math.hypot(view.blur.spot, moreSpread),
    },
  };
};
