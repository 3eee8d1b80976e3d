/** Makes the set, or fills a gap: one at a time, stoppable, and laid into the job as one step to undo. */
import type { MadeView } from '../../../contract/synth.ts';
import type { Frame, Job } from '../../../job/schema/job.ts';
import { setKeyShift } from '../../../job/edits/consequences.ts';
import { filledName, madeName } from '../../../job/facts/made.ts';
import type { Made } from '../../../job/schema/made.ts';
import { synthPlan } from '../../../job/facts/synth.ts';
import { makeBetweens, makeViews } from '../../../calls/synth.ts';
import { openFrame } from '../../../files/frame-store.ts';
import { newId } from '../../../files/new-id.ts';
import { documentStore } from '../../../state/document.ts';
import { insertAfter, layFrames } from '../../../job/edits/frames.ts';
import { announce } from '../live.ts';
import { copyBehind, takeIn } from '../take-in.ts';
import { choicesOf, gapOf, pictureOf, sceneOf } from './scene.ts';
import type { Stage } from './state.ts';
import { setSynth, synthStore } from './state.ts';

let halt = new AbortController();
/** Id of the job that was open when the making began. */
let madeFor = '';

export const stopMaking = (): void => halt.abort();

const inStage = async (
  what: 'views' | 'between',
  work: (signal: AbortSignal, report: (done: number, total: number) => void) => Promise<Stage>,
): Promise<void> => {
  halt.abort();
  halt = new AbortController();
  const { signal } = halt;
  madeFor = documentStore.getState().jobId;
  const report = (done: number, total: number) => {
    if (!signal.aborted) setSynth({ stage: { kind: 'making', what, done, total } });
  };
  report(0, 1);
  let stage: Stage;
  try {
    stage = await work(signal, report);
  } catch (error) {
    stage = { kind: 'failed', message: error instanceof Error ? error.message : String(error) };
  }
  if (signal.aborted) stage = { kind: 'stopped' };
  if (halt.signal !== signal) return;
  setSynth({ stage });
  if (stage.kind === 'done') announce(stage.text);
  else if (stage.kind === 'stopped') announce('Stopped: the sequence is as it was.');
};

type Facts = Omit<Made, 'invented' | 'holesId'>;

/** What the job keeps of one; where it was filled goes into the frame store. */
const madeOf = (frame: Frame, { invented, filledFile }: MadeView, facts: Facts): Made => {
  const holesId = newId();
  copyBehind(holesId, filledName(frame.name), filledFile, filledFile);
  return { ...facts, invented: Number(invented.toFixed(5)), holesId };
};

/** Made pictures are kept like files that arrived. All of them, or an error. */
const keep = async (
  job: Job,
  made: readonly MadeView[],
  names: readonly string[],
  facts: readonly Facts[],
  signal: AbortSignal,
): Promise<Frame[]> => {
  const arrivals = made.map(({ file }, index) => {
    const name = names[index] ?? '';
    return { name, path: name, file };
  });
  const frames = await takeIn(arrivals, names, job.exposureStops, signal);
  if (frames.length < made.length && !signal.aborted)
    throw new Error(
      'Some of the made views could not be kept; the notes above say why. Nothing was changed.',
    );
  if (documentStore.getState().jobId !== madeFor && !signal.aborted)
    throw new Error('Another job was opened meanwhile, so the made views were left out.');
  if (signal.aborted) return frames;
  return frames.map((frame, index) => ({
    ...frame,
    made: madeOf(frame, made[index] as MadeView, facts[index] as Facts),
  }));
};

const views = (count: number) => `${count} ${count === 1 ? 'view' : 'views'}`;

/** Key plane and gain are in the made frames: the job says the same, and slides nothing any more. */
const laidIn = (job: Job, frames: readonly Frame[], gain: number): Job => ({
  ...setKeyShift(layFrames(job, frames), 0),
  depthGain: gain,
});

export const startViews = (): Promise<void> =>
  inStage('views', async (signal, report) => {
    const { job, change } = documentStore.getState();
    const state = synthStore.getState();
    const { depth } = state;
    const picture = pictureOf(job, state);
    if (picture === undefined || depth === undefined) return { kind: 'idle' };
    const choices = choicesOf(job, state);
    const { slides } = synthPlan(job, choices);
    const count = slides.length;
    // The picture serves as its own view, unless the key plane has been moved against it.
    const ownPlace = choices.keyZ === 0 ? slides.indexOf(0) : -1;
    const wanted = slides.map((_, index) => index).filter((index) => index !== ownPlace);
    const scene = await sceneOf(job, choices, picture, depth, 0);
    const outcome = await makeViews(
      scene,
      wanted.map((index) => slides[index] as number),
      { signal, report },
    );
    if (!outcome.done) return { kind: 'stopped' };
    const kept = await keep(
      job,
      outcome.value,
      wanted.map((index) => madeName(picture.name, index + 1, count)),
      wanted.map((index) => ({
        from: [picture.name, depth.name],
        way: 'depth',
        place: index + 1,
        count,
      })),
      signal,
    );
    if (signal.aborted) return { kind: 'stopped' };
    const frames =
      ownPlace < 0 ? kept : [...kept.slice(0, ownPlace), picture, ...kept.slice(ownPlace)];
    change(`making ${views(kept.length)}`, (current) => laidIn(current, frames, choices.gain));
    const before = job.frames.length - (ownPlace < 0 ? 0 : 1);
    const gone =
      before > 0
        ? ` They stand in the place of ${before === 1 ? 'one frame' : `${before} frames`}; undo brings back what was there.`
        : '';
    return { kind: 'done', text: `${views(kept.length)} made.${gone}` };
  });

export const startBetween = (): Promise<void> =>
  inStage('between', async (signal, report) => {
    const { job, change } = documentStore.getState();
    const gap = gapOf(job, synthStore.getState());
    if (gap === undefined) return { kind: 'idle' };
    const { first, second, count } = gap;
    const [from, to] = await Promise.all(
      [first, second].map(async ({ id, name }) => ({
        key: id,
        name,
        file: await openFrame(id, name),
      })),
    );
    if (from === undefined || to === undefined) return { kind: 'idle' };
    const places = Array.from({ length: count }, (_, index) => (index + 1) / (count + 1));
    const pair = { first: from, second: to, options: { exposureStops: job.exposureStops } };
    const outcome = await makeBetweens(pair, places, { signal, report });
    if (!outcome.done) return { kind: 'stopped' };
    const kept = await keep(
      job,
      outcome.value,
      places.map((_, index) => madeName(first.name, index + 1, count)),
      places.map((_, index) => ({
        from: [first.name, second.name],
        way: 'between',
        place: index + 1,
        count,
      })),
      signal,
    );
    if (signal.aborted) return { kind: 'stopped' };
    change(`making ${kept.length === 1 ? 'a frame' : `${kept.length} frames`} between`, (current) =>
      insertAfter(current, first.id, kept),
    );
    return {
      kind: 'done',
      text: `${kept.length === 1 ? 'One frame' : `${kept.length} frames`} made between ${first.name} and ${second.name}.`,
    };
  });
