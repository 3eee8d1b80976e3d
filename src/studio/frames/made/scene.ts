/** Turns the job and the panel's choices into requests to the workers. */
import type { FileToRead } from '../../../contract/frames.ts';
import type { DepthScene } from '../../../contract/synth.ts';
import { faultOfMeaning } from '../../../core/frames/synth/depth-map.ts';
import type { Frame, Job } from '../../../job/schema/job.ts';
import { ownRun } from '../../../job/facts/made.ts';
import type { SynthChoices } from '../../../job/facts/synth.ts';
import { synthDefaults, synthPlan } from '../../../job/facts/synth.ts';
import type { MadeState } from './state.ts';

export const choicesOf = (job: Job, { chosen }: Pick<MadeState, 'chosen'>): SynthChoices => {
  const choices = { ...synthDefaults(job, chosen.unit), ...chosen };
  const { seenFrom, views } = choices;
  return seenFrom !== undefined && seenFrom >= views
    ? { ...choices, seenFrom: undefined }
    : choices;
};

/** The frame that views are made from: the chosen one, else the middle one. */
export const pictureOf = (
  job: Job,
  { pictureId }: Pick<MadeState, 'pictureId'>,
): Frame | undefined =>
  job.frames.find(({ id }) => id === pictureId) ?? job.frames[(job.frames.length - 1) >> 1];

/** Why views cannot be made with these choices; undefined if they can. */
export const faultOf = (job: Job, choices: SynthChoices): string | undefined => {
  const { meaning, distance, keyZ } = synthPlan(job, choices);
  if (!(distance + keyZ > 0))
    return 'The key plane lies behind the cameras: it must be nearer to the rig’s own key plane than they are.';
  return faultOfMeaning(meaning, distance);
};

/** Everything but the place of the view, at full size. */
export const sceneOf = (
  job: Job,
  choices: SynthChoices,
  picture: FileToRead,
  depth: FileToRead,
): DepthScene => {
  const { meaning, distance, keyZ, slides } = synthPlan(job, choices);
  return {
    picture,
    depth,
    options: { exposureStops: job.exposureStops },
    meaning,
    distance,
    keyZ,
    mostSlide: Math.max(...slides.map(Math.abs)),
    mostPx: 0,
  };
};

export interface GapToFill {
  readonly first: Frame;
  readonly second: Frame;
  readonly count: number;
}

/** The pair to fill between: the chosen one, else that of the first gap in the numbers, else the first pair. */
export const gapOf = (
  { frames }: Job,
  { gapAfter, gapCount }: Pick<MadeState, 'gapAfter' | 'gapCount'>,
): GapToFill | undefined => {
  const gaps = ownRun(frames)?.gaps ?? [];
  const countAfter = (at: number): number => {
    const gap = gaps.find(({ after }) => after === frames[at]?.name);
    return gap === undefined ? 1 : Number(gap.count > 12n ? 12n : gap.count);
  };
  const named = frames.findIndex(({ name }) => gaps.some(({ after }) => after === name));
  const wanted = frames.findIndex(({ id }) => id === gapAfter);
  const at = wanted >= 0 && wanted < frames.length - 1 ? wanted : Math.max(0, named);
  const [first, second] = [frames[at], frames[at + 1]];
  if (first === undefined || second === undefined) return undefined;
  return { first, second, count: gapCount ?? countAfter(at) };
};
