/** Weaving the strip the fields describe: from the button to the finished file. */
import { stripSize } from '../../core/pitch/strip-rows.ts';
import { keepWoven, paperOf, stripPlanOf, wovenOf } from '../../job/facts/pitch.ts';
import { weaveStrip as weaveInto } from '../../calls/strip.ts';
import { tryChange } from '../../state/change.ts';
import { documentStore } from '../../state/document.ts';
import { viewStore } from '../../state/view.ts';
import { workStore } from '../../state/work.ts';
import type { FileToWrite } from './weave-file.ts';
import { createFileRun } from './weave-file.ts';
import { today } from '../../job/edits/strip.ts';
import { stripFileName, stripInfo } from './strip-info.ts';

const run = createFileRun({
  get: () => workStore.getState().strip,
  set: (strip) => workStore.getState().set({ strip }),
});

export const stopStrip = (): void => run.stop();

/** Does nothing while one is being woven. */
export const weaveStrip = (): Promise<void> => run.start(stripFile);

const stripFile = (): FileToWrite => {
  const { units, fileType } = viewStore.getState();
  const { job: now } = documentStore.getState();
  const plan = stripPlanOf(now, units);
  if (!plan.ok) throw new Error(plan.message);
  const { spec } = plan;
  return {
    fileName: stripFileName(spec, fileType),
    fileType,
    rows: stripSize(spec).heightDots,
    write: (sink, call) =>
      weaveInto(
        { strip: spec, fileType, info: stripInfo(spec, paperOf(now), new Date()) },
        sink,
        call,
      ),
    isStale: () => false,
    onWhole: () => tryChange('strip woven', (job) => keepWoven(job, wovenOf(job, spec, today()))),
  };
};
