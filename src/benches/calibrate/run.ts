/** Weaving the strip the fields describe: from the button to the finished file. */
import { toWorkError } from '../../contract/errors.ts';
import type { Sink } from '../../contract/sink.ts';
import { stripSize } from '../../core/pitch/strip-rows.ts';
import type { StripSpec } from '../../core/pitch/strip.ts';
import type { KeptSink } from '../../files/sinks.ts';
import { openChosenSink, openKeptSink } from '../../files/sinks.ts';
import { keepWoven, stripPlanOf, wovenOf } from '../../job/pitch.ts';
import { weaveStrip as weaveInto } from '../../jobs/strip.ts';
import { tryChange } from '../../state/change.ts';
import { documentStore } from '../../state/document.ts';
import { viewStore } from '../../state/view.ts';
import type { WeaveState } from '../../state/work.ts';
import { workStore } from '../../state/work.ts';
import { today } from './edits.ts';
import { stripFileName, stripInfo } from './strip-info.ts';

const setStripState = (strip: WeaveState) => workStore.getState().set({ strip });

let halt: AbortController | undefined;
let kept: KeptSink | undefined;

export const stopStrip = (): void => halt?.abort();

/** Does nothing while one is being woven. */
export const weaveStrip = async (): Promise<void> => {
  if (halt !== undefined) return;
  const own = new AbortController();
  halt = own;
  try {
    const plan = stripPlanOf(documentStore.getState().job, viewStore.getState().units);
    if (!plan.ok) throw new Error(plan.message);
    await weaveSpec(plan.spec, own.signal);
  } catch (error) {
    setStripState({ stage: 'failed', message: toWorkError(error).message });
  } finally {
    halt = undefined;
  }
};

const weaveSpec = async (spec: StripSpec, signal: AbortSignal): Promise<void> => {
  const { saveTo, fileType } = viewStore.getState();
  const fileName = stripFileName(spec, fileType);
  const chosen = saveTo === 'chosen-file' ? await openChosenSink(fileName, fileType) : undefined;
  if (saveTo === 'chosen-file' && chosen === undefined) return;
  letGoOfLast();
  const rows = stripSize(spec).heightDots;
  const startedAt = performance.now();
  setStripState({ stage: 'weaving', rowsDone: 0, rows, secondsLeft: undefined });
  const own = chosen === undefined ? await openKeptSink(fileName, fileType) : undefined;
  const outcome = await weaveInto(
    { strip: spec, fileType, info: stripInfo(spec, new Date()) },
    (chosen ?? own) as Sink,
    {
      signal,
      report: (rowsDone) =>
        setStripState({ stage: 'weaving', rowsDone, rows, secondsLeft: undefined }),
    },
  );
  if (!outcome.done) return setStripState({ stage: 'stopped' });
  kept = own;
  tryChange('strip woven', (job) => keepWoven(job, wovenOf(job, spec, today())));
  setStripState({
    stage: 'woven',
    fileName,
    byteLength: outcome.value.byteLength,
    seconds: (performance.now() - startedAt) / 1000,
    href: own === undefined ? undefined : URL.createObjectURL(await own.file()),
    stale: false,
  });
};

/** The strip before, once another begins. */
const letGoOfLast = () => {
  const { strip } = workStore.getState();
  if (strip.stage === 'woven' && strip.href !== undefined) URL.revokeObjectURL(strip.href);
  kept?.discard().catch(() => undefined);
  kept = undefined;
};
