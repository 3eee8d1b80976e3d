/** Renders the views of the stage into the job: only those that it has not yet. */
import { renderView } from '../../calls/stage.ts';
import { messageOf } from '../../contract/errors.ts';
import type { SceneFacts } from '../../contract/stage.ts';
import { MM_PER_INCH } from '../../core/units/units.ts';
import { layFrames } from '../../job/edits/frames.ts';
import { setKeyShift } from '../../job/edits/consequences.ts';
import { plannedFrame } from '../../job/facts/rig.ts';
import type { StageView } from '../../job/facts/stage.ts';
import { samplesOf, stageCamera, viewsWanted } from '../../job/facts/stage.ts';
import type { Frame, Job } from '../../job/schema/job.ts';
import type { StageChoices } from '../../job/schema/stage.ts';
import type { StageViewsState } from '../../state/tasks.ts';
import { takeIn } from '../frames/take-in.ts';
import type { Studio } from '../studio.ts';
import { createProgress } from '../weave/progress.ts';
import { openedScene, sceneStem, viewLook } from './scene.ts';

/** Steps of a view that are counted. */
const STEPS = 1000;

interface Rendering {
  readonly studio: Studio;
  readonly job: Job;
  readonly jobId: string;
  readonly stage: StageChoices;
  readonly facts: SceneFacts;
  readonly signal: AbortSignal;
  /** Those that are rendered, by key. Grows. */
  readonly kept: Map<string, Blob>;
}

const viewName = ({ sceneName }: StageChoices, view: number, count: number): string =>
  `${sceneStem(sceneName)} view ${view + 1} of ${count}.png`;

const renderAll = async (run: Rendering, wanted: readonly StageView[]): Promise<boolean> => {
  const { studio, job, jobId, stage, facts, signal, kept } = run;
  const scene = await openedScene(studio, stage);
  const size = plannedFrame(job);
  const count = wanted.length;
  const say = (done: number, secondsLeft?: number) =>
    signal.aborted ||
    studio.tasks.tell(jobId, 'stageViews', { stage: 'rendering', done, count, secondsLeft });
  say(0);
  const progress = createProgress(STEPS * count, ({ rowsDone, secondsLeft }) =>
    say(rowsDone / STEPS, secondsLeft),
  );
  for (const [index, { view, key }] of wanted.entries()) {
    if (kept.has(key)) continue;
    const outcome = await renderView(
      {
        scene,
        look: viewLook(job, stage, facts, view),
        camera: stageCamera(job, stage, view),
        ...size,
        samples: samplesOf(stage),
        dpi: Math.max(1, (MM_PER_INCH * size.widthPx) / job.print.widthMm),
      },
      (share) => progress(STEPS * (index + share)),
      signal,
    );
    if (!outcome.done) return false;
    kept.set(key, outcome.value.file);
  }
  return true;
};

/** The sequence from the views that were here and the new ones, in the order of the slots. */
const layIn = async (run: Rendering, views: readonly StageView[]): Promise<string> => {
  const { studio, job, jobId, stage, signal, kept } = run;
  const fresh = views.filter(({ frame }) => frame === undefined);
  const files = fresh.map(({ view, key }) => ({
    name: viewName(stage, view, views.length),
    file: kept.get(key) ?? new Blob(),
  }));
  const { frames } = await takeIn(studio, files, { job: layFrames(job, []), signal });
  if (frames.length < fresh.length)
    throw new Error('Some views could not be kept; the notes on the Frames bench say why.');
  if (studio.document.getState().jobId !== jobId)
    throw new Error('Another job was opened meanwhile, so the views were left out.');
  const made = new Map(fresh.map(({ key }, index) => [key, frames[index]]));
  const laid = views.map(({ view, key, frame }): Frame => {
    const one = frame ?? made.get(key);
    if (one === undefined) throw new Error('A view is missing among those rendered.');
    const from = [stage.sceneName];
    return {
      ...one,
      made: { from, way: 'stage', place: view + 1, count: views.length, invented: 0, key },
    };
  });
  const others = job.frames.filter(({ id }) => !laid.some((one) => one.id === id)).length;
  studio.changeOrThrow('rendering views', (now) => setKeyShift(layFrames(now, laid), 0));
  const here = views.length - fresh.length;
  const again = here === 0 ? '' : `, ${here} ${here === 1 ? 'was' : 'were'} here already`;
  const instead =
    others > 0 ? ` They stand in the place of ${others} other frames; undo brings those back.` : '';
  return `${fresh.length} ${fresh.length === 1 ? 'view' : 'views'} rendered${again}.${instead}`;
};

const keptOf = (state: StageViewsState): ReadonlyMap<string, Blob> =>
  'kept' in state ? state.kept : new Map<string, Blob>();

/** Never rejects: how it ended is told with the task. */
export const renderViews = async (studio: Studio, facts: SceneFacts): Promise<void> => {
  const { document, tasks } = studio;
  const { job, jobId } = document.getState();
  const { stage } = job;
  if (stage === undefined || tasks.isRunning('stageViews')) return;
  // What an earlier run rendered before it was stopped is not rendered again.
  const kept = new Map(keptOf(tasks.state(jobId, 'stageViews')));
  const views = viewsWanted(job);
  const end = (how: 'rendered' | 'stopped' | 'failed', message: string, left = kept) => {
    tasks.tell(jobId, 'stageViews', { stage: how, message, kept: left });
    studio.announce(message);
  };
  await tasks.run({ kind: 'stageViews', jobId }, async (signal) => {
    const run = { studio, job, jobId, stage, facts, signal, kept };
    const wanted = views.filter(({ frame }) => frame === undefined);
    const stopped = () =>
      end(
        'stopped',
        `Stopped: ${wanted.filter(({ key }) => kept.has(key)).length} of ${wanted.length} views are rendered. Render views goes on from there.`,
      );
    try {
      if (!(await renderAll(run, wanted))) return stopped();
      const said = await layIn(run, views);
      end('rendered', said, new Map());
    } catch (error) {
      if (signal.aborted) return stopped();
      end('failed', messageOf(error));
    }
  });
};
