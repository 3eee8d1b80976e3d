/** Frames that were made from others: what the job keeps and says about them. */
import type { NumberedRun } from '../../core/frames/gaps.ts';
import { numberedRun } from '../../core/frames/gaps.ts';
import { oncePerList } from '../../core/frames/once-per-list.ts';
import type { FilledThirds } from '../../core/frames/synth/filled-places.ts';
import { trimmed } from '../../core/units/format.ts';
import type { Finding } from '../findings/finding.ts';
import type { Frame, Job } from '../schema/job.ts';
import { framesInSlots } from './sheet.ts';

/** "kingfisher made 3 of 12": the name of a made frame. */
export const madeName = (from: string, place: number, count: number): string =>
  `${from.replace(/\.[^./]+$/, '')} made ${place} of ${count}`;

/** The name, in messages, of the small picture of a frame's filled places. */
export const filledName = (frame: string): string => `filled places of ${frame}.png`;

/** The frames that were not made, whose names show order and gaps. */
export const ownFrames = (frames: readonly Frame[]): readonly Frame[] =>
  frames.some(({ made }) => made !== undefined)
    ? frames.filter(({ made }) => made === undefined)
    : frames;

/** The numbering of the frames' names, without the gaps that made frames fill. */
export const ownRun = oncePerList((frames: readonly Frame[]): NumberedRun | undefined => {
  const run = numberedRun(ownFrames(frames).map(({ name }) => name));
  if (run === undefined) return undefined;
  const beforeMade = new Set(
    frames.filter((_, at) => frames[at + 1]?.made !== undefined).map(({ name }) => name),
  );
  return { ...run, gaps: run.gaps.filter(({ after }) => !beforeMade.has(after)) };
});

export const sayInvented = (share: number): string =>
  share === 0
    ? 'nothing filled'
    : share < 0.001
      ? 'under 0.1 % filled'
      : `${trimmed(100 * share, 1)} % filled`;

/** "62 % lies in the left third, 20 % in the middle and 18 % in the right": shares of what was filled. */
const sayThirds = (shares: FilledThirds['across'], low: string, high: string): string => {
  const [first, middle, last] = shares.map((share) => `${Math.round(100 * share)} %`);
  return `${first} lies in the ${low} third, ${middle} in the middle and ${last} in the ${high}`;
};

/** Says roughly where a frame was filled, for people who cannot see the picture. */
export const sayWhere = ({ across, down }: FilledThirds): string =>
  `Of what is filled, ${sayThirds(across, 'left', 'right')}; ${sayThirds(down, 'upper', 'lower')}.`;

export const madeFinding = (job: Job): Finding | undefined => {
  const shown = new Set(framesInSlots(job));
  // A view rendered from its scene is none the worse for being rendered here.
  const made = [...shown].flatMap(({ made: one }) =>
    one === undefined || one.way === 'stage' ? [] : one,
  );
  if (made.length === 0) return undefined;
  const most = Math.max(...made.map(({ invented }) => invented));
  const byDepth = made.some(({ way }) => way === 'depth');
  return {
    id: 'made-frames',
    severity: 'note',
    title: `${made.length} of ${shown.size} frames shown are made, not rendered`,
    figure: `at most ${trimmed(100 * most, 1)} % of a frame filled`,
    reason: byDepth
      ? 'They were moved by depth from one picture. What it hides was filled from the farther side, and shine, glass and mirrors stay as they were.'
      : 'They were moved by the disparity of their neighbours. Where that was mistaken, edges tear or double.',
    remedy: 'Good for a trial. For the print to keep, render these views.',
    action: { label: 'Go to Frames', goTo: 'frames', part: 'frames' },
  };
};
