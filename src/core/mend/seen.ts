/**
 * Shows the person’s own frames on a print with faults: a dozen small pictures, redrawn with every move of the Tilt
 * slider. Frames are reduced to the small size once; each place then shows the mix of frames for its u (relations 1,
 * 3 and 8).
 */
import { code8OfLinear, linearOfCode8 } from '../colour/srgb.ts';
import type { Blur } from '../lens/mix.ts';
import { MM_PER_INCH } from '../units/units.ts';
import { lenticulesOver } from '../weave/column-map.ts';
import type { SheetSpec } from '../weave/sheet-spec.ts';
import type { Faults, MendSetup, PhaseTerms } from './fault.ts';
import { bubbleDepth, lensPitchMm, phaseTerms, printAcrossMm, printAlongMm } from './fault.ts';
import type { MixTable } from './seen-mix.ts';
import { MIX_STEPS, mixTable, slotOrder } from './seen-mix.ts';

/** Row-major RGBA, 8 bit, sRGB-encoded, as in the tilt proof. */
export interface SmallPicture {
  readonly pixels: Uint8Array | Uint8ClampedArray;
  readonly columns: number;
  readonly rows: number;
}

/** Frames at drawing size, linear light, index across the ribs first. */
export interface SeenFrames {
  /** Places across the ribs and along them. */
  readonly across: number;
  readonly along: number;
  readonly lying: boolean;
  /** For each view slot, RGB 0 … 65535 at index (along × across + place) × 3. */
  readonly slots: readonly Uint16Array[];
}

const linear8 = linearOfCode8();

/**
 * Reduces frames to drawing size.
 * @param pictures one for each view slot; slots of the same frame share one object.
 */
export const seenFrames = (
  pictures: readonly SmallPicture[],
  sheet: SheetSpec,
  widthPx: number,
  heightPx: number,
): SeenFrames => {
  const lying = sheet.ribs === 'lying';
  const made = new Map<SmallPicture, Uint16Array>();
  const part = partShown(sheet);
  const slots = pictures.map((picture) => {
    const found = made.get(picture) ?? reduced(picture, widthPx, heightPx, lying, part);
    made.set(picture, found);
    return found;
  });
  return lying
    ? { across: heightPx, along: widthPx, lying, slots }
    : { across: widthPx, along: heightPx, lying, slots };
};

/**
 * Frames have a column (lying: a row) for each lenticule that the print touches, even in part. Gives where the print
 * begins and ends between their edges, as an eye sees it: ribs lie p apart. A little beyond 0 … 1 on wide prints.
 */
const partShown = (sheet: SheetSpec): readonly [from: number, to: number] => {
  const { first, count } = lenticulesOver(sheet);
  const middle = (0.5 - first - sheet.offsetMm / sheet.viewingPitchMm) / count;
  const half = printAcrossMm(sheet) / sheet.lensPitchMm / 2 / count;
  return [middle - half, middle + half];
};

/** Mean over each target’s stretch of the source; the nearest sample where that is shorter. */
const reduced = (
  { pixels, columns, rows }: SmallPicture,
  widthPx: number,
  heightPx: number,
  lying: boolean,
  part: readonly [from: number, to: number],
): Uint16Array => {
  const out = new Uint16Array(widthPx * heightPx * 3);
  const ends = (to: number, from: number, [start, end]: readonly [number, number]) =>
    Int32Array.from({ length: to + 1 }, (_, i) =>
      Math.min(from, Math.max(0, Math.round((start + ((end - start) * i) / to) * from))),
    );
  const whole = [0, 1] as const;
  const xs = ends(widthPx, columns, lying ? whole : part);
  const ys = ends(heightPx, rows, lying ? part : whole);
  for (let y = 0; y < heightPx; y += 1)
    for (let x = 0; x < widthPx; x += 1) {
      const left = Math.min(xs[x]!, columns - 1);
      const right = Math.max(left + 1, xs[x + 1]!);
      const top = Math.min(ys[y]!, rows - 1);
      const bottom = Math.max(top + 1, ys[y + 1]!);
      let [r, g, b] = [0, 0, 0];
      for (let row = top; row < bottom; row += 1)
        for (let column = left; column < right; column += 1) {
          const at = (row * columns + column) * 4;
          r += linear8[pixels[at]!]!;
          g += linear8[pixels[at + 1]!]!;
          b += linear8[pixels[at + 2]!]!;
        }
      const count = (right - left) * (bottom - top);
      const to = (lying ? x * heightPx + y : y * widthPx + x) * 3;
      out[to] = r / count;
      out[to + 1] = g / count;
      out[to + 2] = b / count;
    }
  return out;
};

/** A picture to draw at many tilts, with all that does not depend on the eye. */
export interface SeenScene {
  readonly terms: PhaseTerms;
  readonly frames: SeenFrames;
  readonly table: MixTable;
  /** More blurred, for the middle of the bubble. */
  readonly bubbleTable?: MixTable;
  /** u at each place for an eye straight ahead, and its decrease for each mm that the eye moves. */
  readonly still: Float32Array;
  readonly perEyeMm: Float32Array | undefined;
  /** For each place of the print, the place of the picture printed there, −1 where none: the driver’s scale. */
  readonly acrossFrom: Int32Array;
  readonly alongFrom: Int32Array;
  /** Depth of the bubble at each place. */
  readonly depth: Float32Array | undefined;
}

/** One picture of the symptom cards. @param blur of the print as planned, as shares of the pitch. */
export const seenScene = (
  setup: MendSetup,
  faults: Faults,
  frames: SeenFrames,
  blur: Blur,
): SeenScene => {
  const terms = phaseTerms(setup, faults);
  const { across, along } = frames;
  const shape = printAlongMm(setup.sheet) / printAcrossMm(setup.sheet);
  const still = new Float32Array(across * along);
  const { bubble } = terms;
  const perEyeMm = bubble === undefined ? undefined : new Float32Array(across * along);
  const depth = bubble === undefined ? undefined : new Float32Array(across * along);
  for (let j = 0; j < along; j += 1) {
    const y = (j + 0.5) / along - 0.5;
    for (let i = 0; i < across; i += 1) {
      const x = (i + 0.5) / across - 0.5;
      const at = j * across + i;
      let u = terms.middle + terms.across * x + terms.along * y;
      if (terms.swaths !== undefined && Math.floor((y + 0.5) * terms.swaths.count) % 2 === 1)
        u += terms.swaths.slide;
      if (bubble !== undefined && perEyeMm !== undefined && depth !== undefined) {
        const away = Math.hypot(x - bubble.across, (y - bubble.along) * shape) / bubble.radius;
        depth[at] = bubbleDepth(away);
        u += depth[at] * bubble.slide * x;
        perEyeMm[at] = terms.perEyeMm + depth[at] * bubble.slidePerEyeMm;
      }
      still[at] = u + jitterAt(setup, faults, x);
    }
  }
  const wide = (more: number): Blur => ({
    spot: terms.ribsCrossed ? 1 : Math.hypot(blur.spot, more),
    dot: blur.dot,
  });
  const order = slotOrder(frames.slots.length, faults);
  return {
    terms,
    frames,
    table: mixTable(order, wide(terms.moreSpread), faults),
    ...(bubble === undefined
      ? {}
      : {
          bubbleTable: mixTable(
            order,
            wide(Math.hypot(terms.moreSpread, bubble.moreSpread)),
            faults,
          ),
        }),
    still,
    perEyeMm,
    acrossFrom: scaledPlaces(across, faults.driverScaleAcross),
    alongFrom: scaledPlaces(along, faults.driverScaleAlong),
    depth,
  };
};

/** Shift of u where the driver’s own grid puts, under each rib, the view at the middle of a coarse dot. */
const jitterAt = (setup: MendSetup, { resampledDpi }: Faults, across: number): number => {
  if (resampledDpi === undefined) return 0;
  const pitch = lensPitchMm(setup);
  const dot = MM_PER_INCH / resampledDpi;
  const rib = Math.round((across * printAcrossMm(setup.sheet)) / pitch);
  const place = (rib * setup.sheet.viewingPitchMm) / dot;
  return ((Math.round(place) - place) * dot) / setup.sheet.viewingPitchMm;
};

/** For each place of the print, the place of the picture printed there; −1 outside the picture. */
const scaledPlaces = (places: number, scale: number): Int32Array =>
  Int32Array.from({ length: places }, (_, i) => {
    const from = Math.floor(((i + 0.5 - places / 2) / scale + places / 2) * 1);
    return from < 0 || from >= places ? -1 : from;
  });

/**
 * Draws the scene for one eye into RGBA, row-major as the print is seen. A dozen of 160 × 200 take some milliseconds.
 * @param eyeMm across the ribs, from the middle of the print.
 * @param out widthPx × heightPx × 4; left out: a new array.
 */
export const drawSeen = (
  scene: SeenScene,
  eyeMm: number,
  out: Uint8ClampedArray<ArrayBuffer> = new Uint8ClampedArray(
    scene.frames.across * scene.frames.along * 4,
  ),
): Uint8ClampedArray<ArrayBuffer> => {
  const encode = code8OfLinear();
  const { frames, still, perEyeMm, acrossFrom, alongFrom, depth, terms } = scene;
  const { across, along, lying, slots } = frames;
  const bubbleTable = scene.bubbleTable ?? scene.table;
  const evenShift = eyeMm * terms.perEyeMm;
  for (let j = 0; j < along; j += 1) {
    const row = alongFrom[j]!;
    for (let i = 0; i < across; i += 1) {
      const at = j * across + i;
      const to = (lying ? i * along + j : at) * 4;
      out[to + 3] = 255;
      const column = acrossFrom[i]!;
      if (row < 0 || column < 0) {
        out[to] = out[to + 1] = out[to + 2] = 255;
        continue;
      }
      const blurred = depth !== undefined && depth[at]! > 0.25;
      const table = blurred ? bubbleTable : scene.table;
      const { most } = table;
      const u = still[at]! - (perEyeMm === undefined ? evenShift : eyeMm * perEyeMm[at]!);
      const entry = Math.min(MIX_STEPS - 1, ((u - Math.floor(u)) * MIX_STEPS) | 0) * most;
      const from = (row * across + column) * 3;
      let r = 0;
      let g = 0;
      let b = 0;
      for (let k = entry; k < entry + most; k += 1) {
        const part = table.share[k]!;
        // Shares fill a step's row from its beginning.
        if (part === 0) break;
        const light = slots[table.slot[k]!]!;
        r += part * light[from]!;
        g += part * light[from + 1]!;
        b += part * light[from + 2]!;
      }
      out[to] = encode[clamped(r)]!;
      out[to + 1] = encode[clamped(g)]!;
      out[to + 2] = encode[clamped(b)]!;
    }
  }
  return out;
};

const clamped = (light: number): number => (light < 0 ? 0 : light > 65535 ? 65535 : light | 0);
