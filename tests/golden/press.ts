/**
 * From the scene to a printed sheet, through the studio's own code, and from a printed sheet to what
 * the bench sees of it. The only file here that brings the two sides together.
 */
import type { ColumnMap } from '../../src/core/weave/column-map.ts';
import { columnMap, lenticulesOver } from '../../src/core/weave/column-map.ts';
import { weaveRows } from '../../src/core/weave/band.ts';
import type { ReducedFrame, SourceImage } from '../../src/core/weave/reduce.ts';
import { reduceFrame } from '../../src/core/weave/reduce.ts';
import type { SheetSpec } from '../../src/core/weave/sheet-spec.ts';
import type { Verdict } from './criterion.ts';
import { encoded, judge } from './criterion.ts';
import type { BenchLens, Laid, Print, Seen } from './lens-bench.ts';
import { lookThrough } from './lens-bench.ts';
import type { Picture, Plane, SceneEye } from './scene.ts';
import { benchGap, benchPitch } from './traced-by-bench.ts';
import { gardenScene, renderFrom, turnedScene } from './scene.ts';

/** One job: a lens, a sheet woven for it, the distance it is seen from, the scene front to back. */
export interface Job {
  readonly lens: BenchLens;
  readonly sheet: SheetSpec;
  readonly distanceMm: number;
  readonly scene: readonly Plane[];
}

/** A lens in focus on its print, R = t (n − 1) / n, as optics has it where the radius is unknown. */
export const lensInFocus = (linesPerInch: number, radiusMm: number, index = 1.57): BenchLens => ({
  pitchMm: 25.4 / linesPerInch,
  radiusMm,
  index,
  thicknessMm: (radiusMm * index) / (index - 1),
});

export interface JobChoices {
  readonly lens: BenchLens;
  readonly distanceMm: number;
  readonly dpi: number;
  readonly views: number;
  /** Depth of the garden scene before and behind the key plane. */
  readonly depthMm: number;
  readonly sheet?: Partial<SheetSpec>;
}

/** A job 100 mm across the ribs and 10 mm along them, 150 dpi along, right in every way. */
export const jobOf = ({ lens, distanceMm, dpi, views, depthMm, sheet }: JobChoices): Job => {
  const across = Math.round((100 / 25.4) * dpi);
  const along = 60;
  const lying = sheet?.ribs === 'lying';
  return {
    lens,
    distanceMm,
    scene: lying ? turnedScene(gardenScene(depthMm)) : gardenScene(depthMm),
    sheet: {
      widthDots: lying ? along : across,
      heightDots: lying ? across : along,
      acrossDpi: dpi,
      alongDpi: 150,
      ribs: 'upright',
      viewingPitchMm: pitchFor(lens, distanceMm),
      lensPitchMm: lens.pitchMm,
      offsetMm: 0,
      viewSlots: views,
      columns: 'blended',
      ...sheet,
    },
  };
};

/** p_v by the bench's own trace (optics relation 2), rather than taken from src. */
export const pitchFor = (lens: BenchLens, distanceMm: number): number =>
  benchPitch(lens, distanceMm);

/** Distance between neighbouring cameras at print scale, optics relation 5 with depth gain 1. */
export const cameraStepMm = ({ lens, sheet, distanceMm }: Job): number =>
  (distanceMm * lens.pitchMm) / (sheet.viewSlots * benchGap(lens));

const sizeMm = ({ sheet }: Job) => {
  const upright = sheet.ribs === 'upright';
  return {
    widthMm: (sheet.widthDots * 25.4) / (upright ? sheet.acrossDpi : sheet.alongDpi),
    heightMm: (sheet.heightDots * 25.4) / (upright ? sheet.alongDpi : sheet.acrossDpi),
  };
};

const eyeAt = (job: Job, stepMm: number): SceneEye => {
  const upright = job.sheet.ribs === 'upright';
  return {
    xMm: upright ? stepMm : 0,
    yMm: upright ? 0 : stepMm,
    distanceMm: job.distanceMm,
  };
};

/** The camera's frame: square pixels, three to a lenticule, 16-bit sRGB. */
const shoot = (job: Job, cameraStep: number): SourceImage => {
  const { widthMm, heightMm } = sizeMm(job);
  const widthPx = Math.round((widthMm / job.lens.pitchMm) * 3);
  const heightPx = Math.round((heightMm / job.lens.pitchMm) * 3);
  const key = { leftMm: -widthMm / 2, topMm: -heightMm / 2, widthMm, heightMm };
  const eye = eyeAt(job, cameraStep * cameraStepMm(job));
  const { light } = renderFrom(job.scene, eye, key, widthPx, heightPx, 2);
  const data = Uint16Array.from(light, (value) => {
    const encoded = value <= 0.0031308 ? value * 12.92 : 1.055 * value ** (1 / 2.4) - 0.055;
    return Math.round(encoded * 65535);
  });
  return { widthPx, heightPx, channels: 3, encoding: 'srgb16', data };
};

/** The frames of a job as the weave takes them: view 0 from the leftmost (lying: topmost) camera. */
export const framesOf = (job: Job): ReducedFrame[] =>
  Array.from({ length: job.sheet.viewSlots }, (_, view) => {
    const frame = shoot(job, view - (job.sheet.viewSlots - 1) / 2);
    const area = { left: 0, top: 0, width: frame.widthPx, height: frame.heightPx };
    return reduceFrame(frame, job.sheet, area);
  });

/** Weaves a whole sheet at once. */
export const weaveSheet = (
  sheet: SheetSpec,
  frames: readonly ReducedFrame[],
  slots: readonly number[] = frames.map((_, i) => i),
  map: ColumnMap = columnMap(sheet),
): Uint8Array =>
  weaveRows(
    sheet,
    map,
    { slots, frames: frames.map((frame) => ({ ...frame, firstRow: 0 })) },
    { firstRow: 0, rowCount: sheet.heightDots },
  );

export const printOf = (
  sheet: SheetSpec,
  rgb: Uint8Array,
  lensRibs: Print['lensRibs'] = sheet.ribs,
): Print => ({
  rgb,
  widthDots: sheet.widthDots,
  heightDots: sheet.heightDots,
  acrossDpi: lensRibs === sheet.ribs ? sheet.acrossDpi : sheet.alongDpi,
  lensRibs,
});

/** Turns a picture rendered for lying ribs (a row a rib) to the bench's order (a column a rib). */
const transposed = ({ columns, rows, light }: Picture): Picture => {
  const out = new Float64Array(light.length);
  for (let row = 0; row < rows; row += 1)
    for (let column = 0; column < columns; column += 1)
      for (let c = 0; c < 3; c += 1)
        out[(column * rows + row) * 3 + c] = light[(row * columns + column) * 3 + c]!;
  return { columns: rows, rows: columns, light: out };
};

/** What a camera at the eye would take: one pixel for each rib the bench saw, and each line. */
const takeAt = (job: Job, seen: Seen, eyeMm: number): Picture => {
  const { widthMm, heightMm } = sizeMm(job);
  // Where the ribs lie: p apart, on the lens. Their dots are p_v apart.
  const pitch = job.lens.pitchMm;
  const from = (seen.firstRib - 0.5) * pitch + job.sheet.offsetMm;
  const across = seen.ribs * pitch;
  const { scene } = job;
  const eye = eyeAt(job, eyeMm);
  if (job.sheet.ribs === 'upright') {
    const key = { leftMm: from, topMm: -heightMm / 2, widthMm: across, heightMm };
    return renderFrom(scene, eye, key, seen.ribs, seen.lines, 2);
  }
  const key = { leftMm: -widthMm / 2, topMm: from, widthMm, heightMm: across };
  return transposed(renderFrom(scene, eye, key, seen.lines, seen.ribs, 2));
};

/**
 * Looks at a print of the job from an eye `own` camera steps off centre and judges what is seen.
 * Truths are kept from one call to the next: the search tries the same positions every time.
 */
export const inspector = (job: Job) => {
  const kept = new Map<string, Float64Array>();
  return (print: Print, own: number, laid: Laid = {}): Verdict & { seen: Seen } => {
    const step = cameraStepMm(job);
    const eye = { acrossMm: own * step, distanceMm: job.distanceMm };
    const seen = trimmed(lookThrough(job.lens, print, eye, laid), job);
    const truthAt = (at: number) => {
      const key = `${seen.firstRib}:${seen.ribs}:${seen.lines}:${at}`;
      const truth = kept.get(key) ?? encoded(takeAt(job, seen, at * step).light);
      kept.set(key, truth);
      return truth;
    };
    return { ...judge(seen, truthAt, own, job.sheet.viewSlots), seen };
  };
};

/** Decibels of what an eye sees against what a camera in its place would take; quicker than a verdict. */
export const psnrOf = (job: Job, print: Print, own: number): number => {
  const eyeMm = own * cameraStepMm(job);
  const eye = { acrossMm: eyeMm, distanceMm: job.distanceMm };
  const seen = trimmed(lookThrough(job.lens, print, eye), job);
  const truth = encoded(takeAt(job, seen, eyeMm).light);
  const light = encoded(seen.light);
  const square = light.reduce((sum, value, i) => sum + (value - truth[i]!) ** 2, 0);
  return -10 * Math.log10(square / light.length);
};

/** The same ribs for every eye: those at least two in from either edge of the print. */
const trimmed = (seen: Seen, job: Job): Seen => {
  const { first, count } = lenticulesOver(job.sheet);
  const from = Math.max(first + 2, seen.firstRib);
  const to = Math.min(first + count - 2, seen.firstRib + seen.ribs);
  const light = new Float64Array((to - from) * seen.lines * 3);
  for (let line = 0; line < seen.lines; line += 1) {
    const at = (line * seen.ribs + from - seen.firstRib) * 3;
    light.set(seen.light.subarray(at, at + (to - from) * 3), line * (to - from) * 3);
  }
  return { firstRib: from, ribs: to - from, lines: seen.lines, light };
};
