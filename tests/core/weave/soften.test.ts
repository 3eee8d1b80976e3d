/**
 * The prefilter beyond the sharp range, against what is published: the display-bandwidth result of
 * Zwicker, Matusik, Durand, Pfister (EGSR 2006), 1/|s| of the highest frequency; and the discrete
 * Gaussian of Lindeberg (PAMI 1990), e^−t I_n(t) with response exp(t (cos ω − 1)).
 */
import { describe, expect, test } from 'vitest';
import type { ReducedFrame } from '../../../src/core/weave/reduce.ts';
import type { SheetSpec } from '../../../src/core/weave/sheet-spec.ts';
import { softKernel, softWidth } from '../../../src/core/weave/soft-kernel.ts';
import type { Softening } from '../../../src/core/weave/soften.ts';
import { filledSteps, softenFrame, softenRows } from '../../../src/core/weave/soften.ts';

/** I_n(t) e^−t by its integral, (1/π) ∫ exp(t (cos θ − 1)) cos nθ dθ (DLMF 10.32.3). */
const besselOf = (n: number, t: number): number => {
  const parts = 400;
  let sum = 0;
  for (let i = 0; i < parts; i += 1) {
    const theta = (Math.PI * (i + 0.5)) / parts;
    sum += Math.exp(t * (Math.cos(theta) - 1)) * Math.cos(n * theta);
  }
  return sum / parts;
};

describe('the kernel', () => {
  test.each([3, 24, 90, 400, 1536])('of width %i/64 is the discrete Gaussian', (width) => {
    const t = (width / 64) ** 2;
    const kernel = softKernel(width);
    kernel.forEach((weight, n) => expect(weight).toBeCloseTo(besselOf(n, t), 5));
    expect(kernel.reduce((sum, w, n) => sum + (n === 0 ? w : 2 * w), 0)).toBeCloseTo(1, 12);
  });

  test('is nothing within the sharp range, and without strength', () => {
    for (const step of [0, 0.5, -1, 1, NaN]) expect(softWidth(step, 1)).toBe(0);
    expect(softWidth(3, 0)).toBe(0);
    expect(softKernel(0)).toEqual(Float64Array.of(1));
    expect(softWidth(-3, 1)).toBe(softWidth(3, 1));
    expect(softWidth(3, 0.5)).toBeCloseTo(softWidth(3, 1) / 2, -0.5);
  });
});

/** A row whose three channels are cosines of light at `cycles` a lenticule, in three phases. */
const COUNT = 960;
const cosines = (cycles: number): Uint16Array =>
  Uint16Array.from({ length: COUNT * 3 }, (_, i) =>
    Math.round(30000 + 20000 * Math.cos(2 * Math.PI * (cycles * Math.floor(i / 3) + (i % 3) / 3))),
  );
/** The cosine's height after, over before, by its Fourier sum away from the ends. */
const heightLeft = (line: Uint16Array, cycles: number): number => {
  let [re, im] = [0, 0];
  for (let x = 120; x < 840; x += 1) {
    const light = (line[3 * x] as number) - 30000;
    re += light * Math.cos(2 * Math.PI * cycles * x);
    im -= light * Math.sin(2 * Math.PI * cycles * x);
  }
  return Math.hypot(re, im) / 360 / 20000;
};
const softened = (line: Uint16Array, step: number, strength = 1): Uint16Array => {
  const after = line.slice();
  softenRows([{ line: after, widths: new Uint16Array(COUNT).fill(softWidth(step, strength)) }]);
  return after;
};
/** What the average over a lenticule leaves of a frequency: sin πf / πf. */
const averaged = (cycles: number) => Math.sin(Math.PI * cycles) / (Math.PI * cycles);

describe('frequencies', () => {
  // Whole numbers of cycles in the 720 samples looked at.
  test.each([1.25, 1.5, 2, 2.5, 3, 5, 8, 12])(
    'at a step of %f lenticules the published cut-off is where half is left',
    (step) => {
      const cycles = 0.5 / step;
      const left = heightLeft(softened(cosines(cycles), step), cycles);
      // The exact response, 2^−(1 − 1/s²), within what 1/64 lenticule of width allows.
      expect(left).toBeCloseTo(2 ** -(1 - 1 / step ** 2), 1.7);
      // With the average over a lenticule: half, and never more than that average leaves at its own
      // limit, 2/π at half a cycle a lenticule.
      expect(left * averaged(cycles)).toBeGreaterThan(0.49);
      expect(left * averaged(cycles)).toBeLessThan(2 / Math.PI);
    },
  );

  test.each([2.5, 3, 5])(
    'at a step of %f twice the cut-off is mostly gone, a fifth of it kept',
    (step) => {
      expect(
        heightLeft(softened(cosines(1 / step), step), 1 / step) * averaged(1 / step),
      ).toBeLessThan(0.22);
      const low = 0.1 / step;
      expect(heightLeft(softened(cosines(low), step), low)).toBeGreaterThan(0.94);
    },
  );

  test('less strength leaves more', () => {
    const left = [0.25, 0.5, 0.75, 1].map((k) => heightLeft(softened(cosines(0.125), 4, k), 0.125));
    expect([...left].sort((a, b) => b - a)).toEqual(left);
    expect(left[0]).toBeGreaterThan(0.9);
  });
});

/** Rough light, the same every time. */
const rough = (length: number): Uint16Array => {
  let state = 12345;
  return Uint16Array.from({ length }, () => {
    state = (Math.imul(state, 1103515245) + 12345) & 0x7fffffff;
    return state >> 15;
  });
};

describe('rows of light', () => {
  test('an even width is plain convolution, to the rounding', () => {
    const line = rough(300);
    const after = line.slice();
    softenRows([{ line: after, widths: new Uint16Array(100).fill(96) }]);
    const t = (96 / 64) ** 2;
    for (let x = 20; x < 80; x += 1)
      for (let c = 0; c < 3; c += 1) {
        let sum = 0;
        for (let d = -20; d <= 20; d += 1)
          sum += besselOf(Math.abs(d), t) * (line[3 * (x + d) + c] as number);
        expect(Math.abs((after[3 * x + c] as number) - sum)).toBeLessThan(1);
      }
  });

  test('light is kept: the sum over a row changes only by rounding', () => {
    const line = new Uint16Array(300);
    line.set(rough(120), 90);
    const after = line.slice();
    softenRows([{ line: after, widths: new Uint16Array(100).fill(100) }]);
    const sum = (values: Uint16Array) => values.reduce((a, b) => a + b, 0);
    expect(Math.abs(sum(after) - sum(line)) / sum(line)).toBeLessThan(1e-4);
  });

  test('flat light stays flat to the bit, also at the ends and where widths change', () => {
    for (const light of [0, 1, 30001, 65535]) {
      const line = new Uint16Array(300).fill(light);
      const widths = Uint16Array.from({ length: 100 }, (_, x) => (x * 7) % 150);
      softenRows([{ line, widths }]);
      expect(new Set(line)).toEqual(new Set([light]));
    }
  });

  test('sharp places keep their bits, and do not bleed into softened ones', () => {
    const line = rough(300);
    line.fill(65535, 0, 150);
    line.fill(1000, 150);
    line[120] = 3;
    const after = line.slice();
    const widths = Uint16Array.from({ length: 100 }, (_, x) => (x < 50 ? 0 : 120));
    softenRows([{ line: after, widths }]);
    expect(after).toEqual(line);
  });
});

const sheet: SheetSpec = {
  widthDots: 480,
  heightDots: 60,
  acrossDpi: 720,
  alongDpi: 72,
  ribs: 'upright',
  viewingPitchMm: 25.4 / 60,
  lensPitchMm: 25.4 / 60,
  offsetMm: 0,
  viewSlots: 12,
  columns: 'blended',
};
const [COLUMNS, ROWS] = [41, 20];
const run = (frame: ReducedFrame, softening: Softening, area = whole): ReducedFrame => {
  const after = { ...frame, pixels: frame.pixels.slice() };
  const work = softenFrame(after, { sheet, area, widthPx: 400, heightPx: 200 }, softening);
  while (work.next().done !== true);
  return after;
};
const whole = { left: 0, top: 0, width: 400, height: 200 };
const mapOf = (step: (column: number, row: number) => number) => ({
  columns: 8,
  rows: 4,
  placeWidth: 1 / 8,
  placeHeight: 1 / 4,
  steps: Float32Array.from({ length: 32 }, (_, at) => step(at % 8, Math.floor(at / 8))),
});
const changedColumns = (before: ReducedFrame, after: ReducedFrame, row: number): number[] =>
  Array.from({ length: COLUMNS }, (_, x) => x).filter((x) =>
    [0, 1, 2].some((c) => {
      const at = (row * COLUMNS + x) * 3 + c;
      return before.pixels[at] !== after.pixels[at];
    }),
  );

describe('a whole frame', () => {
  const pixels = rough(COLUMNS * ROWS * 3) as Uint16Array<ArrayBuffer>;
  const frame: ReducedFrame = { columns: COLUMNS, rows: ROWS, pixels };

  test('all within the sharp range: not a bit changes', () => {
    const map = mapOf((column) => (column % 2 === 0 ? 1 : -1));
    expect(run(frame, { strength: 1, map }).pixels).toEqual(pixels);
  });

  test('the right half alone is softened where the right half alone is too deep', () => {
    const after = run(frame, { strength: 1, map: mapOf((column) => (column < 4 ? 0 : 4)) });
    const changed = changedColumns(frame, after, 10);
    // Bilinear between the places' middles at 3.5/8 and 4.5/8: a step of 1 at 3.75/8.
    expect(Math.min(...changed)).toBe(Math.ceil((3.75 / 8) * 40));
    expect(Math.max(...changed)).toBe(COLUMNS - 1);
  });

  test('the map lies on the frame, not on the print: it slides with the area', () => {
    const area = { left: 100, top: 0, width: 400, height: 200 };
    const after = run(frame, { strength: 1, map: mapOf((column) => (column < 4 ? 0 : 4)) }, area);
    const changed = changedColumns(frame, after, 10);
    expect(Math.min(...changed)).toBe(Math.ceil((3.75 / 8 - 1 / 4) * 40));
    // Beyond the frame's edge there is bare paper: it stays.
    expect(Math.max(...changed)).toBeLessThanOrEqual(30);
  });

  test('rows too: the lower half alone', () => {
    const after = run(frame, { strength: 1, map: mapOf((_, row) => (row < 2 ? 0 : 4)) });
    expect(changedColumns(frame, after, 2)).toEqual([]);
    expect(changedColumns(frame, after, 17).length).toBe(COLUMNS);
  });

  test('unknown places follow what is known beside them; nothing known, nothing softened', () => {
    const filled = filledSteps(mapOf((column) => (column === 0 ? 3 : column === 7 ? 5 : NaN)));
    expect([...filled.subarray(0, 8)]).toEqual([3, 3, 3, 3, 5, 5, 5, 5]);
    expect(new Set(filledSteps(mapOf(() => NaN)))).toEqual(new Set([0]));
    expect(run(frame, { strength: 1, map: mapOf(() => NaN) }).pixels).toEqual(pixels);
  });
});
