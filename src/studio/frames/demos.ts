/** The demo prints: each is a scene of demo-scenes/ with its frames and their job. */
import { MM_PER_INCH } from '../../core/units/units.ts';
import { messageOf } from '../../contract/errors.ts';
import { nameInText } from '../../core/names/shown.ts';
import { hasLocks } from '../../files/job-hold.ts';
import { addFrames } from '../../job/edits/frames.ts';
import type { Frame, Job } from '../../job/schema/job.ts';
import { newJob } from '../../job/schema/job.ts';
import { rememberOpen } from '../keep/last-open.ts';
import type { Studio } from '../studio.ts';
import { takeIn } from './take-in.ts';

/** The fields of a scene.json that the studio reads. */
interface SceneDocument {
  readonly name: string;
  readonly title: string;
  readonly description: string;
  readonly pitchLpi: number;
  readonly thicknessMm: number;
  readonly index: number;
  readonly printWidthMm: number;
  readonly printHeightMm: number;
  readonly viewingDistanceMm: number;
  readonly viewSlots: number;
  /** γ of the cameras; left out for scenes without depth. */
  readonly depthGain?: number;
  /** The scene's own units, width at the key plane and reach. */
  readonly rig?: NonNullable<Job['rig']>;
  /** File names, in order. */
  readonly frames: readonly string[];
}

const scenes = Object.values(
  import.meta.glob<SceneDocument>('../../../demo-scenes/*/scene.json', {
    eager: true,
    import: 'default',
  }),
);

/** Functions that give the frames' addresses, called when a demo is opened. */
const frameAddresses = import.meta.glob<string>(
  ['../../../demo-scenes/*/*.png', '../../../demo-scenes/*/frames/*.png'],
  { query: '?url', import: 'default' },
);

export interface Demo {
  readonly name: string;
  readonly title: string;
  /** One sentence. */
  readonly description: string;
}

export const demos: readonly Demo[] = scenes;

const jobOf = (scene: SceneDocument): Job => ({
  ...newJob(),
  name: scene.title,
  demo: scene.name,
  lens: {
    pitchMm: MM_PER_INCH / scene.pitchLpi,
    thicknessMm: scene.thicknessMm,
    index: scene.index,
  },
  print: {
    widthMm: scene.printWidthMm,
    heightMm: scene.printHeightMm,
    viewingDistanceMm: scene.viewingDistanceMm,
  },
  viewSlots: scene.viewSlots,
  ...(scene.depthGain === undefined ? {} : { depthGain: scene.depthGain }),
  ...(scene.rig === undefined ? {} : { rig: scene.rig }),
});

const fetchFrame = async (scene: string, name: string, signal: AbortSignal) => {
  const load = Object.entries(frameAddresses).find(
    ([path]) => path.includes(`/${scene}/`) && path.endsWith(`/${name}`),
  )?.[1];
  const answer = load === undefined ? undefined : await fetch(await load(), { signal });
  if (answer === undefined || !answer.ok)
    throw new Error(
      `The demo’s frame ${name} could not be fetched. Is the studio’s server still running? Then reload the page, or open the demo again.`,
    );
  return { name, file: await answer.blob() };
};

/** Undefined where it is not kept; an interrupted visit of an earlier version may have kept it without frames. */
const keptDemo = async ({ disk: { jobs } }: Studio, name: string) =>
  (await jobs.listJobs().catch(() => [])).find((one) => one.demo === name);

/** Keeps the demo as a job of the list, in the place of one that has not all its frames. */
const keepDemo = async (
  { disk: { jobs }, document, keeper }: Studio,
  demo: Job,
  keptId: string | undefined,
): Promise<void> => {
  const keep = async (): Promise<string> => {
    if (keptId === undefined) return jobs.createJob(demo);
    await jobs.saveJob(keptId, demo, { label: 'as it began' });
    return keptId;
  };
  const id = await keep().catch(() => undefined);
  if (id !== undefined && document.getState().job.demo === demo.demo) rememberOpen(id);
  keeper.listChanged();
};

/** The frames of a demo, kept as a job of the list by then. Undefined when it was stopped. */
const framesOf = async (
  studio: Studio,
  scene: SceneDocument,
  signal: AbortSignal,
  onDone: (done: number) => void,
): Promise<readonly Frame[] | undefined> => {
  // Another tab may have laid it in meanwhile.
  const kept = await keptDemo(studio, scene.name);
  const loaded = kept === undefined ? undefined : await studio.disk.jobs.loadJobById(kept.id);
  if (loaded?.kind === 'job' && loaded.job.frames.length === scene.frames.length)
    return loaded.job.frames;
  const files = await Promise.all(
    scene.frames.map((frame) => fetchFrame(scene.name, frame, signal)),
  );
  const job = jobOf(scene);
  const { frames } = await takeIn(studio, files, { job, signal, onDone });
  if (signal.aborted) return undefined;
  if (frames.length === 0)
    throw new Error('None of the demo’s frames could be read. Reload the page to try again.');
  // A server that goes over to a newer version meanwhile gives no more parts of this one, and some cannot be read.
  if (frames.length === scene.frames.length) await keepDemo(studio, { ...job, frames }, kept?.id);
  return frames;
};

/**
 * Lays the frames into the demo, or into the person's copy where they have changed something meanwhile: what
 * they changed stands. A job that has frames by now keeps its own.
 */
const layFrames = ({ document }: Studio, demoId: string, frames: readonly Frame[]): boolean => {
  const { job, jobId, past } = document.getState();
  if (jobId !== demoId || job.frames.length > 0) return false;
  const filled = (one: Job): Job => (one.frames.length > 0 ? one : addFrames(one, frames));
  document.setState({
    job: filled(job),
    past: past.map((step) => ({ ...step, before: filled(step.before) })),
  });
  return true;
};

/** One tab at a time lays a demo in; the others find it kept. */
const alone = async <T>(name: string, work: () => Promise<T>): Promise<T> =>
  hasLocks() ? navigator.locks.request(`tiltloom-demo-${name}`, work) : work();

const fill = async (studio: Studio, scene: SceneDocument): Promise<void> => {
  const { document, work, tasks, notes } = studio;
  const { jobId, job } = document.getState();
  const total = scene.frames.length;
  const isShown = () => document.getState().jobId === jobId && !tasks.isRunning('arrivals');
  const tell = (arriving: { done: number; total: number } | undefined) => {
    if (isShown()) work.setState({ arriving });
  };
  await tasks.run({ kind: 'demo', jobId }, async (signal) => {
    tell({ done: 0, total });
    try {
      const frames = await alone(scene.name, () =>
        framesOf(studio, scene, signal, (done) => tell({ done, total })),
      );
      if (frames !== undefined && layFrames(studio, jobId, frames))
        studio.announce(`${nameInText(job.name)} is open, with ${frames.length} frames.`);
    } catch (error) {
      if (!signal.aborted) notes.problem(messageOf(error));
    } finally {
      tell(undefined);
    }
  });
};

/**
 * Opens a demo in the place of the open job, which is kept under Jobs: the one that is kept, else one whose
 * numbers are there at once and whose frames come after them. Resolves when it is shown.
 * @throws when the open job cannot be left
 */
export const openDemo = async (studio: Studio, name: string): Promise<void> => {
  const scene = scenes.find((one) => one.name === name);
  if (scene === undefined) throw new Error(`There is no demo called “${name}”.`);
  const kept = await keptDemo(studio, name);
  const isWhole = kept?.frameCount === scene.frames.length;
  if (kept !== undefined && isWhole && (await studio.keeper.open(kept.id)).kind === 'job') return;
  await studio.keeper.beginDemo(jobOf(scene));
  void fill(studio, scene);
};

/** Gives the open job, a copy that was begun before the demo's frames had come, those frames. */
export const fillCopy = async (studio: Studio, name: string): Promise<void> => {
  const scene = scenes.find((one) => one.name === name);
  if (scene === undefined)
    studio.tell(`This studio has no demo called “${nameInText(name)}”: add frames of your own.`);
  else await fill(studio, scene);
};
