/** The job's lens, the sheet to weave, and the frame that each slot shows. */
import type { FlipSpec } from '../../core/frames/flip-ahead.ts';
import { aheadZones } from '../../core/frames/flip-ahead.ts';
import type { KeyPlane } from '../../core/frames/key-plane.ts';
import { areaWithRoom, slidArea } from '../../core/frames/key-plane.ts';
import type { SlotContent } from '../../core/frames/recipes.ts';
import { compileSlots } from '../../core/frames/recipes.ts';
import type { LensSheet } from '../../core/lens/lens.ts';
import { lensPitchFor, viewingPitch, viewingPitchAt } from '../../core/lens/traced.ts';
import type { Similarity } from '../../core/numeric/similarity.ts';
import { about, after, inverse, shiftBy } from '../../core/numeric/similarity.ts';
import type { Mm } from '../../core/units/units.ts';
import { dpi, mm, MM_PER_INCH, mmToInch, wholeDots } from '../../core/units/units.ts';
import type { PictureArea } from '../../core/weave/picture-area.ts';
import { filledSides } from '../../core/weave/picture-area.ts';
import type { SheetSpec } from '../../core/weave/sheet-spec.ts';
import type { Frame, Job } from '../schema/job.ts';
import { gridOf } from './printer.ts';

export const lensOf = ({ lens }: Pick<Job, 'lens'>): LensSheet => ({
  pitchMm: mm(lens.pitchMm),
  thicknessMm: mm(lens.thicknessMm),
  index: lens.index,
  ...(lens.radiusMm === undefined ? {} : { radiusMm: mm(lens.radiusMm) }),
});

/** The woven pitch: the proved one, converted to this viewing distance, else the nominal one. */
export const viewingPitchOf = (job: Job): Mm => {
  const lens = lensOf(job);
  const distance = mm(job.print.viewingDistanceMm);
  if (job.provedPitch === undefined) return viewingPitch(lens, distance);
  const { viewingPitchMm, readFromMm } = job.provedPitch;
  return viewingPitchAt(lens, mm(viewingPitchMm), mm(readFromMm), distance);
};

/** p in millimetres of the print: a pitch proved on paper already contains the paper's stretch (relation 2). */
export const printedLensPitch = (job: Job): Mm =>
  lensPitchFor(lensOf(job), viewingPitchOf(job), mm(job.print.viewingDistanceMm));

export const pitchStanding = (job: Job): 'nominal' | 'proved' =>
  job.provedPitch === undefined ? 'nominal' : 'proved';

/** Dpi along the sheet's rows and down its columns, whichever way the ribs run. */
export const sheetDensity = (job: Job): { horizontalDpi: number; verticalDpi: number } =>
  job.ribs === 'upright'
    ? { horizontalDpi: gridOf(job).acrossDpi, verticalDpi: gridOf(job).alongDpi }
    : { horizontalDpi: gridOf(job).alongDpi, verticalDpi: gridOf(job).acrossDpi };

/** How far the picture extends past each side of the trim. */
export const bleedMmOf = (job: Job): number => (job.page?.on === true ? job.page.bleedMm : 0);

/**
 * The woven sheet: the print and the page's bleed. Bleed grows around the middle, so within the trim the dots
 * across the ribs are those of the sheet without bleed.
 */
export const sheetSpecOf = (job: Job): SheetSpec => {
  const { horizontalDpi, verticalDpi } = sheetDensity(job);
  const bleed = (density: number) => wholeDots(mm(bleedMmOf(job)), dpi(density));
  const viewingPitchMm = viewingPitchOf(job);
  return {
    widthDots: wholeDots(mm(job.print.widthMm), dpi(horizontalDpi)) + 2 * bleed(horizontalDpi),
    heightDots: wholeDots(mm(job.print.heightMm), dpi(verticalDpi)) + 2 * bleed(verticalDpi),
    acrossDpi: gridOf(job).acrossDpi,
    alongDpi: gridOf(job).alongDpi,
    ribs: job.ribs,
    viewingPitchMm,
    lensPitchMm: printedLensPitch(job),
    // The views move to the right as the dots under each rib move to the left.
    offsetMm: -movedZones(job) * viewingPitchMm + 0,
    viewSlots: job.viewSlots,
    columns: job.columns,
  };
};

/**
 * The print's outline on a frame, grown by the bleed. Where the frame fills the print to the trim, its edge is mirrored
 * into a bleed that it does not reach. @param frame left out for a title: its ground goes on.
 */
export const withBleed = (job: Job, area: PictureArea, frame?: Frame): PictureArea => {
  if (bleedMmOf(job) === 0) return area;
  const { widthDots, heightDots } = sheetSpecOf(job);
  const { horizontalDpi, verticalDpi } = sheetDensity(job);
  const growX = widthDots / wholeDots(mm(job.print.widthMm), dpi(horizontalDpi));
  const growY = heightDots / wholeDots(mm(job.print.heightMm), dpi(verticalDpi));
  return {
    ...area,
    left: area.left - ((growX - 1) * area.width) / 2,
    top: area.top - ((growY - 1) * area.height) / 2,
    width: area.width * growX,
    height: area.height * growY,
    ...(frame === undefined || job.page?.whiteBleed === true
      ? {}
      : { mirror: filledSides(area, frame) }),
  };
};

/** The frames of one row of cameras: all of them, or with a crossfade the set that this frame is in. */
export const rowOf = (job: Job, frame: Frame): readonly Frame[] => {
  const { recipe } = job;
  const frames = sequenceOf(job);
  if (recipe?.kind !== 'change') return frames;
  const second = new Set(recipe.second);
  return frames.filter(({ id }) => second.has(id) === second.has(frame.id));
};

const keyPlaneOf = (job: Job, frame: Frame): KeyPlane => ({
  keyShift: job.keyShift ?? 0,
  frameCount: rowOf(job, frame).length,
  ribsAcross: ribsAcross(job),
  ribs: job.ribs,
});

/** From pixels of a frame that is placed by itself to those it would have where `placement` lays it. */
export const framePlace = ({ place, widthPx, heightPx }: Frame): Similarity | undefined => {
  if (place === undefined) return undefined;
  const { zoom, right, down, turnDeg } = place;
  const middle = { x: widthPx / 2, y: heightPx / 2 };
  return after(
    shiftBy(right * widthPx, down * widthPx),
    about(middle, zoom, (turnDeg * Math.PI) / 180),
  );
};

/**
 * The print's outline on a frame, in the frame's pixels as `placement` lays it, before the key plane shifts it; with
 * the way to its own pixels where it is placed by itself.
 */
export const areaOf = (job: Job, frame: Frame): PictureArea => {
  const area = areaWithRoom(
    frame.widthPx,
    frame.heightPx,
    { shape: job.print.widthMm / job.print.heightMm, ...job.placement },
    keyPlaneOf(job, frame),
  );
  const placed = framePlace(frame);
  return placed === undefined ? area : { ...area, toFrame: inverse(placed) };
};

/** The part of the frame that is printed: the outline, shifted for the key plane by the frame's place. */
export const printedAreaOf = (job: Job, frame: Frame): PictureArea =>
  slidArea(areaOf(job, frame), keyPlaneOf(job, frame), rowOf(job, frame).indexOf(frame));

/** The frame that lies over all slots as a title. A title needs another frame under it. */
export const titleFrameOf = ({ frames, title }: Job): Frame | undefined =>
  title === undefined || frames.length < 2
    ? undefined
    : frames.find(({ id }) => id === title.frame);

/** The frames that the slots are filled from: all but the title. */
export const sequenceOf = (job: Job): readonly Frame[] => {
  const title = titleFrameOf(job);
  return title === undefined ? job.frames : job.frames.filter((frame) => frame !== title);
};

/** The flip as it lies in the slots, of the pictures that are chosen; undefined for any other recipe. */
export const flipOf = (job: Job): FlipSpec | undefined => {
  const { recipe, viewSlots } = job;
  if (recipe?.kind !== 'flip') return undefined;
  const known = new Set(sequenceOf(job).map(({ id }) => id));
  const pictures = recipe.pictures.filter((id) => known.has(id)).length;
  return { pictures, guardSlots: recipe.guardSlots, viewSlots, ahead: recipe.ahead };
};

/** How far the weave moves the views to the right (lying ribs: down), in zones, −½ … ½; 0 for all but a flip. */
export const movedZones = (job: Job): number => {
  const flip = flipOf(job);
  return flip === undefined ? 0 : aheadZones(flip);
};

/** What each view slot shows, from the recipe and the slots filled by hand. Empty without frames. */
export const slotsOf = (job: Job): readonly SlotContent[] =>
  compileSlots(
    job.recipe,
    sequenceOf(job).map(({ id }) => id),
    job.viewSlots,
    job.slotsByHand,
  );

/**
 * The frame of each view slot: of two, the one with the larger share; for a plain slot, the frame of the slot
 * before. Empty without frames.
 */
export const framesInSlots = (job: Job): readonly Frame[] => {
  const byId = new Map(job.frames.map((frame) => [frame.id, frame]));
  const slots = slotsOf(job);
  let last = slots.find(({ parts }) => parts.length > 0)?.parts[0]?.frame;
  return slots.map(({ parts }) => {
    const [first, second] = parts;
    if (first !== undefined)
      last = second !== undefined && second.weight > first.weight ? second.frame : first.frame;
    return byId.get(last ?? '') as Frame;
  });
};

/** Printed dots in one rib as woven: the most view slots that can differ. */
export const dotsUnderRib = (job: Job): number =>
  (viewingPitchOf(job) * gridOf(job).acrossDpi) / MM_PER_INCH;

/** The print's size across its ribs. */
export const acrossMm = (job: Job): Mm =>
  mm(job.ribs === 'upright' ? job.print.widthMm : job.print.heightMm);

/** Ribs that lie over the print, not a whole number. */
export const ribsAcross = (job: Job): number => acrossMm(job) / job.lens.pitchMm;

/** The error in LPI that slides the picture by this many zones from edge to edge (relation 7). */
export const pitchTolerance = (job: Job, zones = 0.25): number => zones / mmToInch(acrossMm(job));
