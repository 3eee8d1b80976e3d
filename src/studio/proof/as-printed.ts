/** The proof of the print as it is believed to lie on the table, from what Mend was told of it. */
import type { PhaseTerms } from '../../core/mend/fault.ts';
import { phaseTerms } from '../../core/mend/fault.ts';
import type { Job } from '../../job/schema/job.ts';
import { believedFaults, diagnose } from '../../job/facts/mend.ts';
import type { Seeing } from '../../job/schema/trial.ts';
import type { ProofScene, ProofView } from '../../preview/scene.ts';
import type { ViewState } from '../../state/view.ts';

/** Remembered, because it is asked for at every tilt and changes rarely. */
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

/** Frames the other way round, where they are believed to lie so. */
export const sceneAsShown = (job: Job, shows: Shows, scene: ProofScene): ProofScene =>
  termsOf(job, shows)?.reversed === true ? { ...scene, slots: [...scene.slots].reverse() } : scene;

/** The slide and the blur that pitch, skew, place, air and ink are believed to bring. */
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
