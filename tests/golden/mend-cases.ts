/** Seeded failed prints: one fault of random size, or two, on several lenses; what is true of each. */
import type { Cause } from '../../src/core/mend/symptoms.ts';
import type { MendSetup } from '../../src/core/mend/fault.ts';
import { lpi, lpiToMm, mm } from '../../src/core/units/units.ts';
import { randomFrom } from './lens-scan.ts';
import type { FailedPrint, Wrong } from './mend-bench.ts';
import { heightMm, widthMm } from './mend-bench.ts';
import { lensInFocus, pitchFor } from './press.ts';

export interface MendCase {
  readonly seed: number;
  readonly print: FailedPrint;
  readonly causes: readonly Cause[];
  /** What the studio knows. */
  readonly setup: MendSetup;
  /** Woven pitch of the true lens, lines to the inch, and the number of bands that follow. */
  readonly trueLpi: number;
  readonly trueBandsAcross: number;
  readonly trueBandsAlong: number;
}

/** Lens, view slots, dpi: near and far ends of what is printed at home. */
const LENSES = [
  { lens: lensInFocus(60, 0.3), views: 12, dpi: 720, distanceMm: 400 },
  { lens: lensInFocus(40, 0.42), views: 18, dpi: 720, distanceMm: 500 },
  { lens: lensInFocus(75, 0.26), views: 9, dpi: 720, distanceMm: 400 },
] as const;

/** The faults that are put in one at a time; two together are taken from the first six and the order. */
export const SINGLE: readonly Cause[] = [
  'pitch',
  'skew',
  'offset',
  'scale',
  'gap',
  'spread',
  'order',
  'ribs',
  'bubble',
  'out-of-step',
  'resampled',
];
const PAIRED: readonly Cause[] = ['pitch', 'skew', 'offset', 'scale', 'gap', 'spread', 'order'];

const DEGREE = Math.PI / 180;

const faultOf = (
  cause: Cause,
  random: () => number,
  pitchMm: number,
  gapMm: number,
  dpi: number,
  sizes: readonly [width: number, height: number],
): Wrong => {
  const either = (reach: number) => (2 * random() - 1) * reach;
  const between = (low: number, high: number) => low + (high - low) * random();
  switch (cause) {
    case 'pitch':
      return { lensScale: 1 + either(0.01) };
    case 'skew':
      return { skewRad: either(DEGREE) };
    case 'offset':
      return { offsetMm: either(pitchMm / 2) };
    case 'scale':
      return { scale: 1 + either(0.03) };
    case 'gap':
      return { airMm: between(0.12, 0.6) * gapMm };
    case 'spread':
      return { smear: between(0.2, 0.65) };
    case 'order':
      return { reversed: true };
    case 'ribs':
      return { ribsCrossed: true };
    case 'bubble':
      return {
        bubble: {
          xMm: either(0.3) * sizes[0],
          yMm: either(0.3) * sizes[1],
          radiusMm: between(0.1, 0.22) * sizes[0],
          airMm: between(0.5, 1.1) * gapMm,
        },
      };
    case 'resampled':
      return { resampledDpi: between(0.4, 0.62) * dpi };
    default:
      return { stepMm: between(0.12, 0.4) * pitchMm, swathMm: between(6, 14) };
  }
};

const caseOf = (seed: number, pick: (random: () => number) => readonly Cause[]): MendCase => {
  const random = randomFrom(seed * 7919 + 13);
  // The first numbers of near seeds are alike.
  for (let i = 0; i < 5; i += 1) random();
  const { lens, views, dpi, distanceMm } = LENSES[Math.floor(random() * LENSES.length)]!;
  const causes = pick(random);
  const sheet = {
    widthDots: 8 * dpi,
    heightDots: 10 * dpi,
    acrossDpi: dpi,
    alongDpi: dpi,
    ribs: 'upright',
    viewingPitchMm: pitchFor(lens, distanceMm),
    lensPitchMm: lens.pitchMm,
    offsetMm: 0,
    viewSlots: views,
    columns: 'blended',
  } as const;
  const bare = { lens, sheet, distanceMm, wrong: {} };
  const sizes = [widthMm(bare), heightMm(bare)] as const;
  const gap = lens.thicknessMm / lens.index;
  const wrong = causes.reduce<Wrong>(
    (all, cause) => ({ ...all, ...faultOf(cause, random, lens.pitchMm, gap, dpi, sizes) }),
    {},
  );
  const trueLens = { ...lens, pitchMm: lens.pitchMm * (wrong.lensScale ?? 1) };
  const trueLpi = 25.4 / pitchFor(trueLens, distanceMm);
  const printedLpi = 25.4 / (sheet.viewingPitchMm * (wrong.scale ?? 1));
  return {
    seed,
    print: { ...bare, wrong },
    causes,
    setup: {
      lens: {
        pitchMm: lpiToMm(lpi(25.4 / lens.pitchMm)),
        thicknessMm: mm(lens.thicknessMm),
        index: lens.index,
      },
      sheet,
      distanceMm,
    },
    trueLpi,
    trueBandsAcross: ((printedLpi - trueLpi) * widthMm({ ...bare, wrong })) / 25.4,
    trueBandsAlong:
      (heightMm({ ...bare, wrong }) * Math.sin(wrong.skewRad ?? 0)) / (25.4 / printedLpi),
  };
};

export const singleCase = (seed: number): MendCase =>
  caseOf(seed, (random) => [SINGLE[Math.floor(random() * SINGLE.length)]!]);

export const doubleCase = (seed: number): MendCase =>
  caseOf(100_000 + seed, (random) => {
    const first = Math.floor(random() * PAIRED.length);
    const second = (first + 1 + Math.floor(random() * (PAIRED.length - 1))) % PAIRED.length;
    return [PAIRED[first]!, PAIRED[second]!];
  });
