import { sayStep } from '../../job/words/steps.ts';
import type { Studio } from '../../studio/studio.ts';
import { useDocument, useUnits, useView } from '../studio.ts';

/** What undo and redo would do, in words; undefined where there is nothing. */
export const useStepWords = () => {
  const job = useDocument((state) => state.job);
  const past = useDocument((state) => state.past.at(-1));
  const future = useDocument((state) => state.future.at(-1));
  const looks = { units: useUnits(), pitchUnit: useView((view) => view.pitchUnit) };
  return {
    undo: past && sayStep(past.label, past.before, job, looks),
    // Where redo leads lies in its step, as where undo leads does.
    redo: future && sayStep(future.label, job, future.before, looks),
  };
};

/** Goes one step, and opens the bench where it happened: what changes out of sight is taken for nothing. */
export const travel = ({ document, view, announce }: Studio, way: 'undo' | 'redo'): void => {
  const { past, future, job, [way]: go } = document.getState();
  const step = (way === 'undo' ? past : future).at(-1);
  go();
  if (step === undefined || document.getState().job === job) return;
  const { units, pitchUnit, lastBench } = view.getState();
  const [before, after] = way === 'undo' ? [step.before, job] : [job, step.before];
  const words = sayStep(step.label, before, after, { units, pitchUnit });
  announce(`${way === 'undo' ? 'Undone' : 'Done again'}: ${words}.`);
  if (step.bench !== undefined && step.bench !== lastBench) location.hash = `#/${step.bench}`;
};
