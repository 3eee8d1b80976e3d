/** Softening of what lies beyond the sharp range: whether it is on, and where each frame needs it. */
import { fingerprintOf } from '../../core/frames/fingerprint.ts';
import type { PairMotion } from '../../core/frames/parallax/pair.ts';
import { lenticulesOf } from '../../core/frames/parallax/summary.ts';
import type { Softening } from '../../core/weave/soften.ts';
import type { Finding } from '../findings/finding.ts';
import type { Frame, Job } from '../schema/job.ts';
import type { WholeParallax } from './parallax.ts';
import { framesPerSlot, parallaxKeyOf, parallaxScaleOf } from './parallax.ts';
import { rowOf, sequenceOf } from './sheet.ts';

/**
 * `lying`: under lying ribs both eyes see the same view, so there is no parallax to soften. `unmeasured`:
 * softening is wanted, but these frames have not been measured completely.
 */
export const softenStanding = (
  job: Job,
  whole: WholeParallax | undefined,
): 'off' | 'lying' | 'unmeasured' | 'on' => {
  if (job.ribs === 'lying') return 'lying';
  if ((job.soften ?? 0) === 0) return 'off';
  return whole?.key === parallaxKeyOf(job) ? 'on' : 'unmeasured';
};

/**
 * The frame's motion to the next frame in its row of cameras. The last frame of a row takes the motion that
 * leads to it, whose places lie off by one step.
 */
const motionAt = (job: Job, { pairs }: WholeParallax, frame: Frame): PairMotion | undefined => {
  const row = rowOf(job, frame);
  const frames = sequenceOf(job);
  const index = frames.indexOf(frame);
  const inRow = (other: Frame | undefined) => other !== undefined && row.includes(other);
  // A title does not move.
  if (!inRow(frame)) return undefined;
  if (inRow(frames[index + 1])) return pairs[index];
  return inRow(frames[index - 1]) ? pairs[index - 1] : undefined;
};

/** Undefined for a frame that is not softened. */
export const softeningOf = (
  job: Job,
  whole: WholeParallax | undefined,
  frame: Frame,
): Softening | undefined => {
  if (whole === undefined || softenStanding(job, whole) !== 'on') return undefined;
  const motion = motionAt(job, whole, frame);
  if (motion === undefined) return undefined;
  const { columns, rows, placeWidth, placeHeight } = motion;
  const framesPerView = framesPerSlot(job);
  const steps = lenticulesOf(motion, parallaxScaleOf(job)).map((step) => step * framesPerView);
  return {
    strength: job.soften ?? 0,
    map: { columns, rows, placeWidth, placeHeight, steps },
  };
};

const marks = new WeakMap<WholeParallax, string>();

/** A fingerprint of all measured shifts: equal when the same frames are measured again. */
const markOf = (whole: WholeParallax): string => {
  const had = marks.get(whole);
  if (had !== undefined) return had;
  const mark = whole.pairs
    .map(({ columns, rows, shift }) => fingerprintOf(columns, rows, shift))
    .join('');
  marks.set(whole, mark);
  return mark;
};

/** Everything that softened pixels depend on besides the sheet; undefined if nothing is softened. */
export const softenKeyOf = (job: Job, whole: WholeParallax | undefined): string | undefined => {
  if (whole === undefined || softenStanding(job, whole) !== 'on') return undefined;
  return JSON.stringify([job.soften, framesPerSlot(job), parallaxScaleOf(job), markOf(whole)]);
};

export const softenFinding = (job: Job, whole: WholeParallax | undefined): Finding | undefined => {
  if (softenStanding(job, whole) !== 'unmeasured' || sequenceOf(job).length < 2) return undefined;
  return {
    id: 'soften-unmeasured',
    severity: 'caution',
    title: 'Nothing is softened yet',
    figure: `Soften ${Math.round(100 * (job.soften ?? 0))} %`,
    reason:
      'How far things move in these frames has not been measured to the end, so proof and sheet show them as they came.',
    remedy: 'Measure the parallax on the Frames bench, or set Soften to 0 %.',
    action: { label: 'Go to Frames', goTo: 'frames', part: 'parallax' },
  };
};
