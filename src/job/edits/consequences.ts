/** Edits of a field that change other fields too. */
import { MM_PER_INCH } from '../../core/units/units.ts';
import { gridOf } from '../facts/printer.ts';
import type { ChangeOf } from '../schema/changed.ts';
import { changed } from '../schema/changed.ts';
import type { Job } from '../schema/job.ts';
import { reversedRecipe } from './recipe.ts';

/** A proved pitch holds for one lens, one printer setting and one axis of the printer; any other change removes it. */
export const unproved = (job: Job): Job => {
  if (job.provedPitch === undefined) return job;
  const { provedPitch: _letGo, ...rest } = job;
  return rest;
};

/** A thickness that is only guessed changes in proportion, so that the ribs keep their shape. */
export const setLensPitch = (job: Job, pitchMm: number): Job => {
  if (pitchMm === job.lens.pitchMm) return job;
  const { lens, guessed } = job;
  const thicknessMm =
    guessed?.includes('lensThickness') === true
      ? Number(((lens.thicknessMm * pitchMm) / lens.pitchMm).toFixed(3))
      : lens.thicknessMm;
  return { ...unproved(job), lens: { ...lens, pitchMm, thicknessMm } };
};

/** Paper and carriage stretch a print each in its own way, so a pitch holds along one axis of the printer. */
const provedAlong = (before: Job, after: Job): Job => {
  const [was, is] = [gridOf(before), gridOf(after)];
  return was.axis === is.axis && was.acrossDpi === is.acrossDpi ? after : unproved(after);
};

export const setRibs = (job: Job, ribs: Job['ribs']): Job =>
  ribs === job.ribs ? job : provedAlong(job, { ...job, ribs });

/** The printer's own numbers. Undefined leaves the edge that is fed first to the studio. */
export const setPrinter = (job: Job, change: ChangeOf<Job['printer']>): Job =>
  provedAlong(job, { ...job, printer: changed(job.printer, change) });

/**
 * Dots across and along the ribs, as the page lies now. It stays so: where the studio would turn it for the new numbers,
 * its edge is kept in the job. With equal dots both ways nothing is to be kept.
 */
export const setDensity = (
  job: Job,
  change: { readonly acrossDpi?: number; readonly alongDpi?: number },
): Job => {
  const { axis, fedFirst, ...now } = gridOf(job);
  const { acrossDpi, alongDpi } = { ...now, ...change };
  const [carriageDpi, feedDpi] =
    axis === 'carriage' ? [acrossDpi, alongDpi] : [alongDpi, acrossDpi];
  const free = setPrinter(job, { carriageDpi, feedDpi, fedFirst: undefined });
  const liesSo = gridOf(free).fedFirst === fedFirst;
  const isChosen = job.printer.fedFirst !== undefined && carriageDpi !== feedDpi;
  return setPrinter(job, {
    carriageDpi,
    feedDpi,
    fedFirst: liesSo && !isChosen ? undefined : fedFirst,
  });
};

/** Slots filled by hand belong to their number of slots, so another number is spread evenly. */
export const setViewSlots = (job: Job, viewSlots: number): Job => {
  if (viewSlots === job.viewSlots) return job;
  const { slotsByHand: _letGo, ...rest } = job;
  return { ...rest, viewSlots };
};

/** A radius that is not known is left out, not kept empty. */
export const setRadius = (job: Job, radiusMm: number | undefined): Job => {
  const { radiusMm: _before, ...lens } = job.lens;
  return { ...job, lens: radiusMm === undefined ? lens : { ...lens, radiusMm } };
};

export const setSupplierAngle = (job: Job, supplierAngleDeg: number | undefined): Job => {
  const { supplierAngleDeg: _before, ...lens } = job.lens;
  return {
    ...job,
    lens: supplierAngleDeg === undefined ? lens : { ...lens, supplierAngleDeg },
  };
};

/**
 * Takes another lens and printer. Only the pitch of the new lens is known: the thickness changes in proportion, so
 * that the ribs keep their shape, and the other figures of the old lens are removed.
 */
export const takePair = (job: Job, lpi: number, acrossDpi: number, viewSlots: number): Job => {
  const pitchMm = MM_PER_INCH / lpi;
  const sameLens = Math.abs(pitchMm / job.lens.pitchMm - 1) < 1e-3;
  const { radiusMm: _radius, supplierAngleDeg: _angle, ...lens } = job.lens;
  const thicknessMm = Number(((lens.thicknessMm * pitchMm) / lens.pitchMm).toFixed(3));
  const withLens = sameLens
    ? job
    : { ...setLensPitch(job, pitchMm), lens: { ...lens, pitchMm, thicknessMm } };
  return setViewSlots(setDensity(withLens, { acrossDpi }), viewSlots);
};

export const setDepthGain = (job: Job, depthGain: number): Job => ({ ...job, depthGain });

/** 0, the frames' own key plane, is left out of the job. */
export const setKeyShift = (job: Job, keyShift: number): Job => {
  const { keyShift: before = 0, ...rest } = job;
  if (before === keyShift) return job;
  return keyShift === 0 ? rest : { ...rest, keyShift };
};

/** 0, no softening, is left out of the job. */
export const setSoften = (job: Job, soften: number): Job => {
  const { soften: before = 0, ...rest } = job;
  if (before === soften) return job;
  return soften === 0 ? rest : { ...rest, soften };
};

/**
 * Slots filled by hand are reversed with the frames. The key shift changes its sign, so that the key plane stays the
 * same.
 */
export const reverseFrames = (job: Job): Job => {
  if (job.frames.length < 2) return job;
  const { slotsByHand, keyShift = 0, recipe, ...rest } = job;
  return {
    ...rest,
    frames: [...job.frames].reverse(),
    ...(recipe === undefined ? {} : { recipe: reversedRecipe(job, recipe) }),
    ...(slotsByHand === undefined ? {} : { slotsByHand: [...slotsByHand].reverse() }),
    ...(keyShift === 0 ? {} : { keyShift: -keyShift }),
  };
};

/** Fills the slots with the middle frames of the sequence, whose cameras are closer together. */
export const takeMiddleFrames = (job: Job): Job => {
  const first = Math.floor((job.frames.length - job.viewSlots) / 2);
  if (first < 0) return job;
  const middle = job.frames.slice(first, first + job.viewSlots);
  return { ...job, slotsByHand: middle.map(({ id }) => id) };
};
