/**
 * Failed prints under a lens, and a careful eye before them: faults are put into the print or the way it
 * lies, every ray is traced by Snell's law (`lens-bench.ts`), and what the eye then counts comes from the
 * light that reached it and from nothing else. Apart from `src`, but for the weave that made the print.
 */
import { columnMap } from '../../src/core/weave/column-map.ts';
import { weaveRows } from '../../src/core/weave/band.ts';
import type { SheetSpec } from '../../src/core/weave/sheet-spec.ts';
import type { BenchLens } from './lens-bench.ts';
import { traceRay } from './lens-bench.ts';

/** What went wrong. Left out: nothing. */
export interface Wrong {
  /** The lens's true pitch over the one the print was woven for. */
  readonly lensScale?: number;
  /** Print turned under the lens, clockwise seen from the front, radians. */
  readonly skewRad?: number;
  /** Print moved to the right under the lens. */
  readonly offsetMm?: number;
  /** Printed over drawn, both ways. */
  readonly scale?: number;
  /** Air between lens and print. */
  readonly airMm?: number;
  /** Ink runs: each dot is smeared over an even strip, a share of the pitch. */
  readonly smear?: number;
  readonly reversed?: boolean;
  readonly ribsCrossed?: boolean;
  readonly bubble?: {
    readonly xMm: number;
    readonly yMm: number;
    readonly radiusMm: number;
    readonly airMm: number;
  };
  /** Every second swath of the head lies this far to the right. */
  readonly stepMm?: number;
  readonly swathMm?: number;
  /** The driver brought the row to this dpi and back, nearest dot. */
  readonly resampledDpi?: number;
}

export interface FailedPrint {
  readonly lens: BenchLens;
  /** Upright ribs. */
  readonly sheet: SheetSpec;
  readonly distanceMm: number;
  readonly wrong: Wrong;
}

/** Linear light of a strip of print as a running sum a channel, index (dot × 6 + channel). */
export type Heap = Float64Array;

const CHANNELS = 6;

const decoded = Float64Array.from({ length: 256 }, (_, code) => {
  const e = code / 255;
  return e <= 0.04045 ? e / 12.92 : ((e + 0.055) / 1.055) ** 2.4;
});

/**
 * Test pictures that a careful eye reads well: plain colours, each frame the next hue of a wheel
 * (channels 0 … 2); and the first frame red, the last green, the middle one blue, the rest black.
 */
const flatFrames = (count: number, reversed: boolean) =>
  [0, 1].map((set) =>
    Array.from({ length: count }, (_, slot) => {
      const frame = reversed ? count - 1 - slot : slot;
      const light = [0, 1, 2].map((c) => {
        if (set === 1) return frame === [0, count - 1, count >> 1][c] ? 1 : 0;
        return 0.5 + 0.45 * Math.cos(2 * Math.PI * ((frame + 0.5) / count - c / 3));
      });
      return { columns: 1, rows: 1, firstRow: 0, light };
    }),
  );

const wovenRows = new Map<string, readonly Uint8Array[]>();

/** One row of dots of each set, woven by the studio. */
const weave = (sheet: SheetSpec, reversed: boolean): readonly Uint8Array[] => {
  const key = JSON.stringify([sheet, reversed]);
  const found = wovenRows.get(key);
  if (found !== undefined) return found;
  const one = { ...sheet, heightDots: 1 };
  const map = columnMap(one);
  const rows = flatFrames(sheet.viewSlots, reversed).map((frames) =>
    weaveRows(
      one,
      map,
      {
        slots: frames.map((_, i) => i),
        frames: frames.map(({ light }) => ({
          columns: map.lenticules,
          rows: 1,
          firstRow: 0,
          pixels: Uint16Array.from({ length: map.lenticules * 3 }, (_, i) =>
            Math.round((light[i % 3] as number) * 65535),
          ),
        })),
      },
      { firstRow: 0, rowCount: 1 },
    ),
  );
  wovenRows.set(key, rows);
  return rows;
};

/** Each coarse dot shows the woven dot at its middle. @param step woven dots to a coarse one. */
const resampled = (row: Uint8Array, step: number): Uint8Array =>
  row.map((_, i) => {
    const middle = (Math.floor((Math.floor(i / 3) + 0.5) / step) + 0.5) * step;
    return row[Math.min(row.length / 3 - 1, Math.floor(middle)) * 3 + (i % 3)]!;
  });

const heapOf = (rows: readonly Uint8Array[], dots: number): Heap => {
  const heap = new Float64Array((dots + 1) * CHANNELS);
  for (let dot = 0; dot < dots; dot += 1)
    for (let c = 0; c < CHANNELS; c += 1) {
      const code = rows[c < 3 ? 0 : 1]![dot * 3 + (c % 3)]!;
      heap[(dot + 1) * CHANNELS + c] = heap[dot * CHANNELS + c]! + decoded[code]!;
    }
  return heap;
};

/** A bundle's stretch of the print, in the lens's frame, and its share of what the eye sees of the rib. */
export interface Bundle {
  readonly from: number;
  readonly to: number;
  readonly share: number;
}

/** Where a ray ends with air under the lens's flat back: Snell's law once more. */
const landing = (
  lens: BenchLens,
  crest: number,
  off: number,
  eye: number,
  away: number,
  air: number,
) => {
  const at = { acrossMm: eye, distanceMm: away };
  const ray = traceRay(lens, crest, off, at);
  if (air === 0) return ray;
  const deeper = traceRay({ ...lens, thicknessMm: lens.thicknessMm + 1 }, crest, off, at);
  const slope = deeper.printMm - ray.printMm;
  const sine = (lens.index * slope) / Math.hypot(1, slope);
  // A ray too slant for the flat back is reflected inside and sees nothing.
  if (Math.abs(sine) >= 1) return { ...ray, met: false };
  return { ...ray, printMm: ray.printMm + (air * sine) / Math.sqrt(1 - sine * sine) };
};

const RAYS = 16;

export const bundles = (
  lens: BenchLens,
  crest: number,
  eye: number,
  away: number,
  air: number,
): Bundle[] => {
  const found: Bundle[] = [];
  let before = landing(lens, crest, -lens.pitchMm / 2, eye, away, air);
  let whole = 0;
  for (let i = 1; i <= RAYS; i += 1) {
    const next = landing(lens, crest, (i / RAYS - 0.5) * lens.pitchMm, eye, away, air);
    const share = next.angleRad - before.angleRad;
    if (before.met && next.met && share > 0) {
      whole += share;
      found.push({
        from: Math.min(before.printMm, next.printMm),
        to: Math.max(before.printMm, next.printMm),
        share,
      });
    }
    before = next;
  }
  return found.map((one) => ({ ...one, share: one.share / whole }));
};

/** The six channels of light that an eye receives from one rib at one height. */
export type Look = (rib: number, yMm: number, eyeMm: number) => Float64Array;

/** Size of the picture as it came out of the printer. */
export const widthMm = ({ sheet, wrong }: FailedPrint): number =>
  ((sheet.widthDots * 25.4) / sheet.acrossDpi) * (wrong.scale ?? 1);
export const heightMm = ({ sheet, wrong }: FailedPrint): number =>
  ((sheet.heightDots * 25.4) / sheet.alongDpi) * (wrong.scale ?? 1);

export const lookAt = (print: FailedPrint): Look & { readonly pitchMm: number } => {
  const { sheet, distanceMm, wrong } = print;
  const { skewRad = 0, offsetMm = 0, scale = 1, airMm = 0, smear = 0, bubble } = wrong;
  const lens = { ...print.lens, pitchMm: print.lens.pitchMm * (wrong.lensScale ?? 1) };
  const dots = sheet.widthDots;
  const dotMm = 25.4 / sheet.acrossDpi;
  const woven = weave(sheet, wrong.reversed ?? false);
  const { resampledDpi } = wrong;
  const heap = heapOf(
    resampledDpi === undefined
      ? woven
      : woven.map((row) => resampled(row, sheet.acrossDpi / resampledDpi)),
    dots,
  );
  const [cos, sin] = [Math.cos(skewRad), Math.sin(skewRad)];
  const soft = (smear * sheet.viewingPitchMm * scale) / (dotMm * scale);
  const heapAt = (dot: number, c: number) => {
    const at = Math.min(dots, Math.max(0, dot));
    const low = Math.min(dots - 1, Math.floor(at));
    const here = heap[low * CHANNELS + c]!;
    return here + (heap[(low + 1) * CHANNELS + c]! - here) * (at - low);
  };
  /** Integral of the heap, so that a smear is a difference of it: trapezium rule in few steps. */
  const light = (from: number, to: number, c: number): number => {
    const width = Math.max(to - from, 1e-3);
    if (soft === 0) return (heapAt(from + width, c) - heapAt(from, c)) / width;
    let sum = 0;
    const parts = 12;
    for (let k = 0; k < parts; k += 1) {
      const aside = ((k + 0.5) / parts - 0.5) * soft;
      const wide = Math.max(width, soft / parts);
      const middle = from + width / 2 + aside;
      sum += (heapAt(middle + wide / 2, c) - heapAt(middle - wide / 2, c)) / wide;
    }
    return sum / parts;
  };
  const kept = new Map<string, Bundle[]>();
  const look = (rib: number, yMm: number, eyeMm: number): Float64Array => {
    const crest = rib * lens.pitchMm;
    let air = airMm;
    if (bubble !== undefined) {
      const away = Math.hypot(crest - bubble.xMm, yMm - bubble.yMm) / bubble.radiusMm;
      if (away < 1) air += bubble.airMm * (1 - away * away);
    }
    const key = `${rib}:${eyeMm}:${air}`;
    const seen = kept.get(key) ?? bundles(lens, crest, eyeMm, distanceMm, air);
    if (!kept.has(key)) kept.set(key, seen);
    const out = new Float64Array(CHANNELS);
    // Along the ribs the sheet has no power: the line of sight meets the print a hair further out.
    const y = yMm * (1 + lens.thicknessMm / lens.index / distanceMm);
    for (const { from, to, share } of seen) {
      if (wrong.ribsCrossed === true) {
        // The woven lines run square to the ribs: each rib shows one line of dots at its height.
        const dot = y / (dotMm * scale) + dots / 2;
        for (let c = 0; c < CHANNELS; c += 1) out[c]! += share * light(dot - 1, dot + 1, c);
        continue;
      }
      const middle = (from + to) / 2;
      const own = middle * cos + y * sin - offsetMm;
      const down = -middle * sin + y * cos + heightMm(print) / 2;
      const odd = Math.floor(down / (wrong.swathMm ?? 10)) % 2 !== 0;
      const at = (own - (odd ? (wrong.stepMm ?? 0) : 0)) / (dotMm * scale) + dots / 2;
      const half = (to - from) / 2 / (dotMm * scale);
      for (let c = 0; c < CHANNELS; c += 1) out[c]! += share * light(at - half, at + half, c);
    }
    return out;
  };
  return Object.assign(look, { pitchMm: lens.pitchMm });
};
