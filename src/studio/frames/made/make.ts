/** Makes a set of views, or frames that fill a gap. One making at a time; it can be stopped and undone in one step. */
import { makeBetweens, makeViews } from '../../../calls/synth.ts';
import { messageOf } from '../../../contract/errors.ts';
import type { MadeView } from '../../../contract/synth.ts';
import { nameInText } from '../../../core/names/shown.ts';
import { newId } from '../../../files/new-id.ts';
import { setKeyShift } from '../../../job/edits/consequences.ts';
import { insertAfter, layFrames } from '../../../job/edits/frames.ts';
import { filledName, madeName } from '../../../job/facts/made.ts';
import { synthPlan } from '../../../job/facts/synth.ts';
import type { Frame, Job } from '../../../job/schema/job.ts';
import type { Made } from '../../../job/schema/made.ts';
import type { Studio } from '../../studio.ts';
import { openOriginal } from '../open-original.ts';
import { copyBehind, takeIn } from '../take-in.ts';
import { choicesOf, gapOf, pictureOf, sceneOf } from './scene.ts';
import type { Stage } from './state.ts';

/** A making under way, with the job as it was when the making began. */
interface Making {
  readonly studio: Studio;
  readonly job: Job;
  readonly jobId: string;
  readonly signal: AbortSignal;
  readonly report: (done: number, total: number) => void;
}

/** Shows the making's progress and outcome. Stops a making that is under way. */
const inStage = async (
  studio: Studio,
  what: 'views' | 'between',
  make: (making: Making) => Promise<Stage>,
): Promise<void> => {
  const { document, made, tasks } = studio;
  const { job, jobId } = document.getState();
  tasks.stop('madeViews');
  const stage = await tasks.run({ kind: 'madeViews', jobId }, async (signal): Promise<Stage> => {
    const report = (done: number, total: number) => {
      if (!signal.aborted) made.set({ stage: { kind: 'making', what, done, total } });
    };
    report(0, 1);
    const ended = await make({ studio, job, jobId, signal, report }).catch(
      (error: unknown): Stage => ({ kind: 'failed', message: messageOf(error) }),
    );
    return signal.aborted ? { kind: 'stopped' } : ended;
  });
  // A later run stopped this one and now shows its own progress.
  if (stage.kind === 'stopped' && tasks.isRunning('madeViews')) return;
  made.set({ stage });
  if (stage.kind === 'done') studio.announce(stage.text);
  else if (stage.kind === 'stopped') studio.announce('Stopped: the sequence is as it was.');
};

type Facts = Omit<Made, 'invented' | 'holesId'>;

/** What the job keeps of a made frame; the picture of its filled places goes to the disk. */
const madeOf = (
  studio: Studio,
  frame: Frame,
  { invented, filledFile }: MadeView,
  facts: Facts,
): Made => {
  const holesId = newId();
  copyBehind(studio, holesId, filledName(frame.name), filledFile, filledFile);
  return { ...facts, invented: Number(invented.toFixed(5)), holesId };
};

/** Keeps made pictures like files that arrived: all of them, or throws. */
const keep = async (
  { studio, job, jobId, signal }: Making,
  made: readonly MadeView[],
  facts: readonly Facts[],
): Promise<Frame[]> => {
  const files = made.map(({ file }, index) => {
    const { from, place, count } = facts[index] as Facts;
    return { name: madeName(from[0] ?? '', place, count), file };
  });
  const { frames } = await takeIn(studio, files, { job, signal });
  if (signal.aborted) return frames;
  if (frames.length < made.length)
    throw new Error(
      'Some of the made views could not be kept; the notes above say why. Nothing was changed.',
    );
  if (studio.document.getState().jobId !== jobId)
    throw new Error('Another job was opened meanwhile, so the made views were left out.');
  return frames.map((frame, index) => ({
    ...frame,
    made: madeOf(studio, frame, made[index] as MadeView, facts[index] as Facts),
  }));
};

const sayViews = (count: number) => `${count} ${count === 1 ? 'view' : 'views'}`;

/** Made frames already contain key plane and gain, so the job takes the gain and a shift of 0. */
const laidIn = (job: Job, frames: readonly Frame[], gain: number): Job => ({
  ...setKeyShift(layFrames(job, frames), 0),
  depthGain: gain,
});

/** Makes the views of one picture and its depths. They replace the sequence. */
export const startViews = (studio: Studio): Promise<void> =>
  inStage(studio, 'views', async (making) => {
    const { job, signal } = making;
    const state = studio.made.store.getState();
    const { depth } = state;
    const picture = pictureOf(job, state);
    if (picture === undefined || depth === undefined) return { kind: 'idle' };
    const choices = choicesOf(job, state);
    const { slides } = synthPlan(job, choices);
    const count = slides.length;
    // The picture is one of the views itself, unless the key plane was moved.
    const ownPlace = choices.keyZ === 0 ? slides.indexOf(0) : -1;
    const wanted = slides.map((_, index) => index).filter((index) => index !== ownPlace);
    const outcome = await makeViews(
      sceneOf(job, choices, await openOriginal(studio, picture), depth),
      wanted.map((index) => slides[index] as number),
      making,
    );
    if (!outcome.done) return { kind: 'stopped' };
    const from = [picture.name, depth.name];
    const kept = await keep(
      making,
      outcome.value,
      wanted.map((index) => ({ from, way: 'depth', place: index + 1, count })),
    );
    if (signal.aborted) return { kind: 'stopped' };
    const frames =
      ownPlace < 0 ? kept : [...kept.slice(0, ownPlace), picture, ...kept.slice(ownPlace)];
    studio.changeOrThrow(`making ${sayViews(kept.length)}`, (current) =>
      laidIn(current, frames, choices.gain),
    );
    const before = job.frames.length - (ownPlace < 0 ? 0 : 1);
    const gone =
      before > 0
        ? ` They stand in the place of ${before === 1 ? 'one frame' : `${before} frames`}; undo brings back what was there.`
        : '';
    return { kind: 'done', text: `${sayViews(kept.length)} made.${gone}` };
  });

/** Makes frames between two neighbours and inserts them there. */
export const startBetween = (studio: Studio): Promise<void> =>
  inStage(studio, 'between', async (making) => {
    const { job, signal } = making;
    const gap = gapOf(job, studio.made.store.getState());
    if (gap === undefined) return { kind: 'idle' };
    const { first, second, count } = gap;
    const pair = {
      first: await openOriginal(studio, first),
      second: await openOriginal(studio, second),
      options: { exposureStops: job.exposureStops },
    };
    const places = Array.from({ length: count }, (_, index) => index + 1);
    const outcome = await makeBetweens(
      pair,
      places.map((place) => place / (count + 1)),
      making,
    );
    if (!outcome.done) return { kind: 'stopped' };
    const from = [first.name, second.name];
    const kept = await keep(
      making,
      outcome.value,
      places.map((place) => ({ from, way: 'between', place, count })),
    );
    if (signal.aborted) return { kind: 'stopped' };
    studio.changeOrThrow(
      `making ${kept.length === 1 ? 'a frame' : `${kept.length} frames`} between`,
      (current) => insertAfter(current, first.id, kept),
    );
    return {
      kind: 'done',
      text: `${kept.length === 1 ? 'One frame' : `${kept.length} frames`} made between ${nameInText(first.name)} and ${nameInText(second.name)}.`,
    };
  });
