/**
 * Faults put into traced prints, counted by a careful eye, and read back by the studio. A small sample;
 * the five hundred of the bench are in tests/bench/mend.bench.mjs and docs/mend-confusion.md.
 */
import { describe, expect, test } from 'vitest';
import type { Counts } from '../../src/core/mend/counts.ts';
import { rankCauses } from '../../src/core/mend/rank.ts';
import type { Cause, SymptomId } from '../../src/core/mend/symptoms.ts';
import { SYMPTOMS } from '../../src/core/mend/symptoms.ts';
import { otherDistance, remediesOf } from '../../src/core/mend/remedies.ts';
import { readCounts } from '../../src/core/mend/read-counts.ts';
import { mm } from '../../src/core/units/units.ts';
import { lensInFocus, pitchFor } from './press.ts';
import { doubleCase, singleCase } from './mend-cases.ts';
import { carefulEye } from './mend-eye.ts';
import { BUDGET, WIDTH_IN, scoreOf, shareOf } from './mend-score.ts';
import type { Wrong } from './mend-bench.ts';

const lens = lensInFocus(60, 0.3);
const sheet = {
  widthDots: 8 * 720,
  heightDots: 10 * 720,
  acrossDpi: 720,
  alongDpi: 720,
  ribs: 'upright',
  viewingPitchMm: pitchFor(lens, 400),
  lensPitchMm: lens.pitchMm,
  offsetMm: 0,
  viewSlots: 12,
  columns: 'blended',
} as const;
const eyeOn = (wrong: Wrong, distanceMm = 400) => carefulEye({ lens, sheet, distanceMm, wrong });

describe('which way things go, seen by the traced eye', () => {
  // optics "Signs that a test must pin down": worked out from relation 1, here against the ray trace.
  test('a print too coarse for its lens has bands that run against the head', () => {
    // A finer lens than the print was woven for: 60.24 to the inch.
    expect(eyeOn({ lensScale: 0.996 })).toMatchObject({ run: 'against', bandsAlong: 0 });
  });

  test('a print too fine has bands that run with the head', () => {
    expect(eyeOn({ lensScale: 1.004 })).toMatchObject({ run: 'with', bandsAlong: 0 });
  });

  test('a print turned clockwise has level bands that sink as the head goes right', () => {
    expect(eyeOn({ skewRad: 0.005 })).toMatchObject({ run: 'forth', bandsAcross: 0 });
    expect(eyeOn({ skewRad: -0.005 })).toMatchObject({ run: 'back', bandsAcross: 0 });
  });

  test.each([
    [1.004, 0.005, 'forth'],
    [1.004, -0.005, 'back'],
    [0.996, 0.005, 'back'],
    [0.996, -0.005, 'forth'],
  ])('lens × %d, print turned %d: bands lean %s at the top', (lensScale, skewRad, lean) => {
    expect(eyeOn({ lensScale, skewRad }).lean).toBe(lean);
  });

  test('a print that lies too far right is met by its jump sooner on the right', () => {
    const { jumpForthMm = 0, jumpBackMm = 0 } = eyeOn({ offsetMm: 0.1 });
    expect(jumpForthMm).toBeLessThan(jumpBackMm);
  });

  test('air shortens the way to the jump, ink does not, both make it last', () => {
    const [right, air, ink] = [eyeOn({}), eyeOn({ airMm: 0.15 }), eyeOn({ smear: 0.4 })];
    expect(air.jumpForthMm).toBeLessThan(right.jumpForthMm! - 20);
    expect(ink.jumpForthMm).toBeGreaterThanOrEqual(right.jumpForthMm!);
    expect(air.jumpTakesMm).toBeGreaterThan(right.jumpTakesMm!);
    expect(ink.jumpTakesMm).toBeGreaterThan(right.jumpTakesMm!);
  });
});

describe('seeded prints', () => {
  const singles = Array.from({ length: 40 }, (_, i) => scoreOf(singleCase(1000 + i)));
  const doubles = Array.from({ length: 16 }, (_, i) => scoreOf(doubleCase(1000 + i)));
  const all = [...singles, ...doubles];

  test('the sign is right wherever one band or more is seen', () => {
    expect(all.reduce((sum, one) => sum + one.signs, 0)).toBeGreaterThan(15);
    expect(all.filter((one) => one.wrongSigns > 0)).toEqual([]);
  });

  test('the corrected pitch is inside the plan’s tolerance in 95 of 100', () => {
    const read = all.filter((one) => one.pitchOff !== undefined);
    expect(read.length).toBeGreaterThan(50);
    const inside = shareOf(read, (one) => Math.abs(one.pitchOff!) <= BUDGET / WIDTH_IN);
    expect(inside).toBeGreaterThanOrEqual(0.95);
  });

  test('its ± holds nineteen times in twenty', () => {
    const read = all.filter((one) => one.pitchOff !== undefined);
    const held = shareOf(read, (one) => Math.abs(one.pitchOff!) <= one.pitchPlusMinus!);
    expect(held).toBeGreaterThanOrEqual(0.93);
  });

  test('the right cause is ranked first in 90 of 100, both of two in 80', () => {
    expect(shareOf(singles, (one) => one.found)).toBeGreaterThanOrEqual(0.9);
    expect(shareOf(doubles, (one) => one.found)).toBeGreaterThanOrEqual(0.8);
  });
});

describe('a picture chosen asks for no more than its number needs', () => {
  /** The picture of the wall that looks like it, as bands run. */
  const looksLike = (cause: Cause, { run }: Counts): SymptomId =>
    (
      ({
        pitch: run === 'with' ? 'too-fine' : 'too-coarse',
        scale: 'scaled',
        skew: run === 'back' ? 'skewed-left' : 'skewed-right',
        offset: 'off-centre',
        order: 'order-reversed',
        ribs: 'ribs-crossed',
        gap: 'two-at-once',
        spread: 'two-at-once',
        bubble: 'one-place',
        'out-of-step': 'out-of-step',
        resampled: 'resampled',
      }) as Partial<Record<Cause, SymptomId>>
    )[cause]!;

  test('and with those counts alone the cause is told, and gap from ink', () => {
    const scores = Array.from({ length: 22 }, (_, i) => {
      const one = singleCase(3000 + i);
      const [cause] = one.causes;
      const seen = carefulEye(one.print);
      const chosen = looksLike(cause!, seen);
      const asks: readonly string[] = SYMPTOMS.find(({ id }) => id === chosen)!.asks;
      const counts = Object.fromEntries(
        Object.entries(seen).filter(([field]) => asks.includes(field)),
      );
      return rankCauses(one.setup, { chosen: [chosen], counts })[0]!.cause === cause;
    });
    expect(shareOf(scores, (good) => good)).toBeGreaterThanOrEqual(0.95);
  });
});

describe('without printing again', () => {
  const { pitchMm, thicknessMm, index } = lens;
  const setup = {
    lens: { pitchMm: mm(pitchMm), thicknessMm: mm(thicknessMm), index },
    sheet,
    distanceMm: 400,
  };

  test('a print too coarse is right nearer, and the traced eye sees no bands from there', () => {
    const wrong = { lensScale: 0.9995 };
    const counts = eyeOn(wrong);
    const reading = readCounts(setup, counts);
    const stand = remediesOf(setup, reading, BUDGET / 2).find(({ kind }) => kind === 'stand-at');
    if (stand?.kind !== 'stand-at') throw new Error(`no distance from ${JSON.stringify(counts)}`);
    expect(stand.distanceMm).toBeLessThan(400);
    expect(eyeOn(wrong, stand.distanceMm).bandsAcross).toBe(0);
  });

  test('a print finer than the lens itself is right from nowhere', () => {
    // p_print ≤ p: relation 2 has no distance.
    const bands = ((sheet.viewingPitchMm / lens.pitchMm - 1) * 203.2) / sheet.viewingPitchMm;
    expect(otherDistance(setup, bands * 1.05, 400)).toBeUndefined();
    expect(otherDistance(setup, bands * 0.9, 400)).toBeGreaterThan(3000);
  });

  test('turned back by what the reading says, the print shows no bands', () => {
    const counts = eyeOn({ skewRad: 0.007 });
    const turn = remediesOf(setup, readCounts(setup, counts), BUDGET)[0];
    if (turn?.kind !== 'turn') throw new Error('no turn');
    expect(eyeOn({ skewRad: 0.007 + turn.rad })).toMatchObject({ bandsAlong: 0 });
    // One end against the other: H tan α (relation 7), the print 254 mm long.
    expect(turn.endsMm).toBeCloseTo(254 * Math.tan(0.007), 1);
  });
});
