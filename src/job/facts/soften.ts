/** Softening what lies beyond the sharp range: whether it is in force, and where each frame needs it. */
import { fingerprintOf } from '../../core/frames/fingerprint.ts';
import type { PairMotion } from '../../core/frames/parallax/pair.ts';
import { lenticulesOf } from '../../core/frames/parallax/summary.ts';
import type { Softening } from '../../core/weave/soften.ts';
import type { Finding } from '../findings/finding.ts';
import type { Frame, Job } from '../schema/job.ts';
import type { WholeParallax } from './parallax.ts';
import { framesPerSlot, parallaxKeyOf, parallaxScaleOf, sequenceOf } from './parallax.ts';
import { rowOf } from './sheet.ts';

/**
 * `lying`: ribs that lie flat show both eyes the same, there is no parallax to soften. `unmeasured`:
 * wanted, but nothing that holds for these frames has been measured to the end.
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
 * The frame's motion to its neighbour in the same row of cameras. The last of a row has none behind it:
 * it takes the motion that led to it, whose places lie off by that one step.
 */
const motionAt = (job: Job, { pairs }: WholeParallax, frame: Frame): PairMotion | undefined => {
  const row = rowOf(job, frame);
  const frames = sequenceOf(job);
  const index = frames.indexOf(frame);
  const inRow = (other: Frame | undefined) => other !== undefined && row.includes(other);
  // A title lies still over all slots.
  if (!inRow(frame)) return undefined;
  if (inRow(frames[index + 1])) return pairs[index];
  return inRow(frames[index - 1]) ? pairs[index - 1] : undefined;
};

/** What a frame is to be softened by; undefined where it is not to be. */
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

/** A short mark of all measured shifts: equal when the same frames were measured again. */
const markOf = (whole: WholeParallax): string => {
  const had = marks.get(whole);
  if (had !== undefined) return had;
  const mark = whole.pairs
    .map(({ columns, rows, shift }) => fingerprintOf(columns, rows, shift))
    .join('');
  marks.set(whole, mark);
  return mark;
};

/** All that softened pixels depend on besides the sheet; undefined where nothing is softened. */
export const softenKeyOf = (job: Job, whole: WholeParallax | undefined): string | undefined => {
  if (whole === undefined || softenStanding(job, whole) !== 'on') return undefined;
  return JSON.stringify([job.soften, framesPerSlot(job), parallaxScaleOf(job), markOf(whole)]);
};

export const softenFindings = (job: Job, whole: WholeParallax | undefined): Finding[] => {
  if (softenStanding(job, whole) !== 'unmeasured' || sequenceOf(job).length < 2) return [];
  return [
    {
      id: 'soften-unmeasured',
      severity: 'caution',
      title: 'Nothing is softened yet',
      figure: `Soften ${Math.round(100 * (job.soften ?? 0))} %`,
      reason:
        'How far things move in these frames has not been measured to the end, so proof and sheet show them as they came.',
      remedy: 'Measure the parallax on the Frames bench, or set Soften to 0 %.',
      action: { label: 'Go to Frames', goTo: 'frames' },
    },
  ];
};
