/** Takes a scene into the job: looked at first, then kept and framed, in one step. */
import { openScene } from '../../calls/stage.ts';
import { messageOf, toWorkError } from '../../contract/errors.ts';
import type { SceneFacts } from '../../contract/stage.ts';
import { crc32 } from '../../core/encode/checksum.ts';
import { nameInText } from '../../core/names/shown.ts';
import type { Framing } from '../../core/stage/pose.ts';
import { depthFrom, framedBox, framedBy, poseNumbers } from '../../core/stage/pose.ts';
import type { Place } from '../../core/stage/turn.ts';
import type { Arrival } from '../../files/arrivals.ts';
import { newId } from '../../files/new-id.ts';
import type { ScenePack } from '../../files/scene-pack.ts';
import { packScene } from '../../files/scene-pack.ts';
import { setRig } from '../../job/facts/rig.ts';
import { keyBetween, setFraming } from '../../job/facts/stage.ts';
import type { Job } from '../../job/schema/job.ts';
import type { RigChoices } from '../../job/schema/rig.ts';
import { nextJob } from '../keep/next-job.ts';
import type { Studio } from '../studio.ts';
import { withReach } from './reach.ts';
import { sceneStem } from './scene.ts';

const CHUNK_BYTES = 4 * 2 ** 20;

const fingerprintOf = async (file: Blob): Promise<string> => {
  let sum = 0;
  for (let at = 0; at < file.size; at += CHUNK_BYTES)
    sum = crc32(new Uint8Array(await file.slice(at, at + CHUNK_BYTES).arrayBuffer()), sum);
  return `${sum.toString(36)}-${file.size.toString(36)}`;
};

/** Height over width of the print. */
const shapeOf = ({ print }: Job): number => print.heightMm / print.widthMm;

/** From the front, with the perspective of someone who looks at the print. */
export const newFraming = (job: Job, { box }: SceneFacts): Framing =>
  framedBox(box, shapeOf(job), job.print.viewingDistanceMm / job.print.widthMm);

/** The scene’s own camera in the middle of the row; the key plane through the middle of what there is. */
export const ownFraming = (job: Job, facts: SceneFacts, index: number): Framing | undefined => {
  const camera = facts.cameras[index];
  if (camera === undefined) return undefined;
  const [least, most] = facts.box;
  const middle = least.map((value, at) => (value + (most[at] ?? value)) / 2) as unknown as Place;
  const away = depthFrom(camera.place, camera.turn, middle);
  const size = Math.hypot(...least.map((value, at) => (most[at] ?? value) - value));
  return framedBy(camera, away > 0.01 * size ? away : size / 2, shapeOf(job));
};

/** A camera with its own perspective stands where it stands; a new one where the viewer does. */
export const framed = (job: Job, facts: SceneFacts, camera: number | undefined): Job => {
  const own = camera === undefined ? undefined : ownFraming(job, facts, camera);
  if (own === undefined)
    return setRig(setFraming(job, newFraming(job, facts)), {
      stand: undefined,
      keyDistance: undefined,
    });
  const [x, y, z] = own.pose.middle;
  const place = facts.cameras[camera ?? 0]?.place ?? [x, y, z];
  const away = Math.hypot(place[0] - x, place[1] - y, place[2] - z);
  return setRig(setFraming(job, own), { stand: 'own', keyDistance: Number(away.toPrecision(9)) });
};

const named: readonly (readonly [unitMm: number, unit: 'mm' | 'cm' | 'm'])[] = [
  [1, 'mm'],
  [10, 'cm'],
  [1000, 'm'],
];

const unitFor = ({ unitMm }: SceneFacts): Pick<RigChoices, 'unit' | 'ownUnitMm'> => {
  if (unitMm === undefined) return {};
  const [, unit] = named.find(([size]) => size === unitMm) ?? [];
  return unit === undefined ? { unit: 'own', ownUnitMm: unitMm } : { unit };
};

/** Copied before the job names it: a job never speaks of a scene that is not there. */
const keepFile = async ({ disk }: Studio, id: string, { name, file }: ScenePack): Promise<void> =>
  disk.frames.keep(id, name, file, new Blob(['-'])).catch((error: unknown) => {
    const { message } = toWorkError(error);
    throw new Error(`The scene ${nameInText(name)} was not kept. ${message}`);
  });

const take = async (studio: Studio, pack: ScenePack, signal: AbortSignal): Promise<void> => {
  const sceneId = newId();
  const opened = await openScene({ key: sceneId, ...pack }, signal);
  if (!opened.done) return;
  const facts = opened.value;
  const fingerprint = await fingerprintOf(pack.file);
  const scene = { sceneId, sceneName: pack.name, fingerprint };
  const own = studio.document.getState().job.demo === undefined;
  const before = own
    ? studio.document.getState().job
    : await nextJob(studio, sceneStem(pack.name).slice(0, 190));
  const staged = (job: Job): Job =>
    framed(
      setRig(
        { ...job, stage: { ...scene, pose: poseNumbers(newFraming(job, facts).pose) } },
        unitFor(facts),
      ),
      facts,
      facts.cameras.length > 0 ? 0 : undefined,
    );
  const reached = await withReach(staged(before), { key: sceneId, ...pack }, signal);
  if (reached === undefined) return;
  const whole = keyBetween(reached);
  await keepFile(studio, sceneId, pack);
  if (own)
    studio.changeOrThrow('adding a scene', (job) => ({
      ...job,
      ...(whole.stage === undefined ? {} : { stage: whole.stage }),
      rig: whole.rig ?? {},
    }));
  else {
    await studio.keeper.begin(whole);
    studio.keeper.listChanged();
  }
  const { view } = studio;
  view.getState().set({ partsShown: { ...view.getState().partsShown, shoot: 'stage' } });
  studio.announce(`The scene ${nameInText(pack.name)} is on the stage.`);
};

/**
 * Never rejects: what is wrong with a scene is told at the head of the page.
 * @param files a scene, a zip, or a scene among its files
 */
export const addScene = async (studio: Studio, files: readonly Arrival[]): Promise<void> => {
  const { document, tasks } = studio;
  const { lookOnly, jobId } = document.getState();
  try {
    if (lookOnly !== undefined) throw new Error(lookOnly);
    tasks.stop('scene');
    await tasks.run({ kind: 'scene', jobId }, async (signal) => {
      const pack = await packScene(files);
      if (pack === undefined)
        throw new Error(
          'None of these files is a scene. Add a .glb, a .gltf with its files, or a zip of them.',
        );
      if (document.getState().jobId !== jobId) return;
      await take(studio, pack, signal);
    });
  } catch (error) {
    studio.tell(messageOf(error));
  }
};
