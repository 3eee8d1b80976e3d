/** The demo prints: each a scene of demo-scenes/ with its frames and the job they were made for. */
import { MM_PER_INCH } from '../../core/units/units.ts';
import type { Job } from '../../job/schema/job.ts';
import { newJob } from '../../job/schema/job.ts';
import type { Studio } from '../studio.ts';
import { takeIn } from './take-in.ts';

/** What the studio reads of a scene.json; the file says more, for other readers. */
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
  /** γ of the cameras; left out where nothing has depth. */
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

/** Addresses of the frames, each asked for when its demo is opened. */
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
      `The demo’s frame ${name} could not be fetched. Is the studio’s server still running? Then open the demo again.`,
    );
  return { name, file: await answer.blob() };
};

const layDemo = async (studio: Studio, name: string, signal: AbortSignal): Promise<void> => {
  const scene = scenes.find((one) => one.name === name);
  if (scene === undefined) throw new Error(`There is no demo called “${name}”.`);
  studio.work.getState().set({ arriving: { done: 0, total: scene.frames.length } });
  const files = await Promise.all(
    scene.frames.map((frame) => fetchFrame(scene.name, frame, signal)),
  ).catch((error: unknown) => {
    if (signal.aborted) return undefined;
    throw error;
  });
  if (files === undefined) return;
  const empty = jobOf(scene);
  const { frames } = await takeIn(studio, files, { job: empty, signal });
  if (signal.aborted) return;
  const job = { ...empty, frames };
  const { ready, open } = studio.document.getState();
  if (ready) {
    const refused = studio.change(`open the demo “${scene.title}”`, () => job);
    if (refused !== undefined) throw new Error(refused);
  } else open(job);
  studio.announce(`${scene.title} is open, with ${frames.length} frames.`);
};

/**
 * Lays a demo in as the job. Over existing work it is a change like any other, which undo takes back.
 * Settles when its frames are there; a fault is left as a note, and the job is then as it was.
 */
export const openDemo = (studio: Studio, name: string): Promise<void> =>
  studio.arrivals.inTurn((signal) => () => layDemo(studio, name, signal));
