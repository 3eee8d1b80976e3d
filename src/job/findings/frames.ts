/** Findings about the frames of a job: their number, shape and fineness. */
import { checkSizes, saySize } from '../../core/frames/shapes.ts';
import { nameInText } from '../../core/names/shown.ts';
import { trimmed } from '../../core/units/format.ts';
import type { Finding } from './finding.ts';
import { foundIn } from './finding.ts';
import { slotsRemedy } from './remedies.ts';
import type { Frame, Job } from '../schema/job.ts';
import { printsDepth, showsDepth } from '../facts/prints-depth.ts';
import { pixelsAcross } from '../facts/place.ts';
import { areaOf, ribsAcross, sequenceOf } from '../facts/sheet.ts';

const size = (frame: Frame) => `${frame.widthPx} × ${frame.heightPx}`;
const many = (count: number, what: string) => `${count} ${what}${count === 1 ? '' : 's'}`;

const frameCount = (job: Job): Finding | undefined => {
  const frames = sequenceOf(job).length;
  if (frames === 0)
    return {
      id: 'no-frames',
      severity: 'note',
      title: 'No frames yet',
      figure: `0 of ${many(job.viewSlots, 'frame')}`,
      reason: 'There is nothing to weave until the sequence is laid in.',
      remedy: 'Add a folder of renders or photographs.',
      action: { label: 'Go to Frames', goTo: 'frames', part: 'frames' },
    };
  // Of the other recipes every slot is filled on purpose.
  if (job.recipe !== undefined && job.recipe.kind !== 'animation') return undefined;
  const uneven = job.viewSlots % frames !== 0;
  // Moments may be held on purpose, each as long as the next.
  if (frames < job.viewSlots && (uneven || showsDepth(job)))
    return {
      id: 'frames-below-slots',
      severity: 'note',
      title: `${many(frames, 'frame')} in ${job.viewSlots} view slots`,
      figure: `${trimmed(job.viewSlots / frames, 2)} slots a frame`,
      reason: uneven
        ? 'Some frames are held longer than others, so the movement is uneven.'
        : 'Each frame is held over several slots: right for a flip, coarse steps for depth.',
      remedy: `Use ${many(frames, 'view slot')}, or add frames.`,
      action: slotsRemedy(frames),
    };
  if (frames > job.viewSlots)
    return {
      id: 'frames-above-slots',
      severity: 'note',
      title: `${many(frames, 'frame')} for ${many(job.viewSlots, 'view slot')}`,
      figure: `${many(frames - job.viewSlots, 'frame')} not shown`,
      reason: 'Frames are taken evenly from the sequence, the first and the last kept.',
      remedy: printsDepth(job)
        ? 'Nothing need change. More view slots, even beyond the dots under a rib, show more of them and sharpen the depth a little.'
        : 'Nothing need change; more view slots show more of them if the printer has the dots.',
    };
  return undefined;
};

const named = (odd: readonly Frame[]): string =>
  odd
    .slice(0, 3)
    .map((frame) => `${nameInText(frame.name)} (${size(frame)} px)`)
    .join(', ') + (odd.length > 3 ? ' and more' : '');

/** Frames of one shape: the finer ones are right, whichever there are more of. */
const mixedFineness = (frames: readonly Frame[]): Finding => {
  const finest = frames.reduce((best, one) => (one.widthPx > best.widthPx ? one : best));
  const coarser = frames.filter((one) => size(one) !== size(finest));
  return {
    id: 'mixed-sizes',
    severity: 'note',
    title: 'Some frames are coarser than others',
    figure: `${coarser.length} of ${many(frames.length, 'frame')} below ${size(finest)} px`,
    reason: `${named(coarser)}: the shape is the same, so the picture stays in place; only its detail differs.`,
    remedy: `Take finer ones, at ${size(finest)} px, unless the lens shows no difference.`,
    action: { label: 'Go to Frames', goTo: 'frames', part: 'frames' },
    toldOn: 'frames',
  };
};

const mixedSizes = (job: Job): Finding | undefined => {
  const frames = sequenceOf(job);
  const { usual, odd } = checkSizes(frames);
  if (usual === undefined || odd.length === 0) return undefined;
  const others = odd.filter(({ differs }) => differs === 'shape').map(({ frame }) => frame);
  if (others.length === 0) return mixedFineness(frames);
  return {
    id: 'mixed-sizes',
    severity: 'caution',
    title: 'Frames of different shapes',
    figure: `${others.length} of ${many(frames.length, 'frame')} not shaped as ${saySize(usual)}`,
    reason: `${named(others)}: the picture jumps where the shape changes.`,
    remedy: `Place each of them by itself, or render them at ${saySize(usual)}.`,
    action: { label: 'Place them', goTo: 'frames', part: 'frames' },
    toldOn: 'frames',
  };
};

const tooCoarse = (job: Job): Finding | undefined => {
  const ribs = ribsAcross(job);
  const coarsest = sequenceOf(job).reduce(
    (least, frame) => Math.min(least, pixelsAcross(job, frame)),
    Infinity,
  );
  if (coarsest >= ribs) return undefined;
  return {
    id: 'frames-too-coarse',
    severity: 'caution',
    title: 'Frames coarser than the lens',
    figure: `${trimmed(coarsest, 0)} pixels for ${trimmed(ribs, 0)} ribs`,
    reason: 'Each rib shows one sample of a frame; with fewer pixels than ribs the print is soft.',
    remedy: `Render at least ${Math.ceil(ribs - 1e-6)} pixels across the ribs.`,
  };
};

const cutAway = (job: Job): Finding | undefined => {
  const [first] = job.frames;
  if (first === undefined || first.place !== undefined || job.placement.mode !== 'fill')
    return undefined;
  const area = areaOf(job, first);
  const lost = 1 - (area.width * area.height) / (first.widthPx * first.heightPx);
  if (lost < 0.02) return undefined;
  const sides = area.width < first.widthPx - 1e-6 ? 'at the sides' : 'at top and bottom';
  return {
    id: 'frames-cut',
    severity: 'note',
    title: 'The print cuts into the frames',
    figure: `${trimmed(100 * lost, 0)} % cut away`,
    reason: `The print has another shape than the frames (${size(first)} px), so they lose some ${sides}.`,
    remedy: 'Change the print to the frames’ shape, or show the whole frame with paper beside it.',
    action: {
      label: 'Show whole frames',
      undoLabel: 'placement of frames',
      edit: (current) => ({ ...current, placement: { ...current.placement, mode: 'fit' } }),
    },
  };
};

export const frameFindings = (job: Job): Finding[] =>
  foundIn([mixedSizes(job), tooCoarse(job), frameCount(job), cutAway(job)]);
