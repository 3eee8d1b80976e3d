/**
 * Wrong sheets, judged by the very criterion that right ones pass: each must fail. Faults are the
 * ones that ruin prints in the craft, and a weave with the fault inside it would print these sheets.
 */
import { describe, expect, test } from 'vitest';
import type { Verdict } from './criterion.ts';
import type { Print } from './lens-bench.ts';
import { framesOf, inspector, jobOf, lensInFocus, pitchFor, printOf, weaveSheet } from './press.ts';

const lens = lensInFocus(60, 0.3);
const gapMm = lens.thicknessMm / lens.index;
const choices = { lens, distanceMm: 400, dpi: 720, views: 12, depthMm: 4 };
const backwards = Array.from({ length: 12 }, (_, slot) => 11 - slot);
const oneSlotOn = Array.from({ length: 12 }, (_, slot) => Math.min(11, slot + 1));

const upsideDown = (print: Print): Print => {
  const row = print.widthDots * 3;
  const rgb = new Uint8Array(print.rgb.length);
  for (let y = 0; y < print.heightDots; y += 1)
    rgb.set(print.rgb.subarray(y * row, (y + 1) * row), (print.heightDots - 1 - y) * row);
  return { ...print, rgb };
};

/** Off centre on both sides; the order's faults cannot be seen from the centre. */
const OFF_CENTRE = [-2.5, 2];
const furthest = (verdict: Verdict) => Math.max(...verdict.offSteps.map(Math.abs));

describe('upright ribs', () => {
  const job = jobOf(choices);
  const { sheet } = job;
  const frames = framesOf(job);
  const look = inspector(job);
  const right = printOf(sheet, weaveSheet(sheet, frames));
  const wovenWith = (pitch: number) =>
    printOf(sheet, weaveSheet({ ...sheet, viewingPitchMm: pitch }, frames));

  test.each(OFF_CENTRE)('the right sheet passes from %d', (own) => {
    expect(look(right, own)).toMatchObject({ ok: true });
  });

  test.each(OFF_CENTRE)('frames in reversed order fail from %d', (own) => {
    const verdict = look(printOf(sheet, weaveSheet(sheet, frames, backwards)), own);
    expect(verdict.ok).toBe(false);
    // Depth inside out: the eye is shown the camera on the other side (optics relation 3).
    expect(verdict.offSteps[0]).toBeCloseTo(-2 * own, 0);
  });

  test('reversed order cannot be told from the centre, which is why no eye above sits there', () => {
    // docs/optics.md, "What was measured": nothing at the centre.
    expect(look(printOf(sheet, weaveSheet(sheet, frames, backwards)), 0).ok).toBe(true);
  });

  test.each([
    ['the lens pitch where the woven pitch belongs', lens.pitchMm],
    ['a woven pitch that forgets the index', lens.pitchMm * (1 + lens.thicknessMm / 400)],
    ['a woven pitch finer than the lens instead of coarser', lens.pitchMm / (1 + gapMm / 400)],
    ['the woven pitch of half the distance', pitchFor(lens, 200)],
    ['a pitch rounded to whole dots', (12 * 25.4) / 720],
  ])('%s fails, at the sides', (_, pitch) => {
    const verdict = look(wovenWith(pitch), 0);
    expect(verdict.ok).toBe(false);
    const [, left, middle, farRight] = verdict.offSteps as [number, number, number, number];
    expect(Math.abs(middle)).toBeLessThanOrEqual(0.5);
    expect(Math.min(Math.abs(left), Math.abs(farRight))).toBeGreaterThan(0.5);
    expect(Math.sign(left)).toBe(-Math.sign(farRight));
  });

  test('the lens pitch costs about the 9 dB that docs/optics.md measured', () => {
    const lost = look(right, 0).psnrDb - look(wovenWith(lens.pitchMm), 0).psnrDb;
    expect(lost).toBeGreaterThan(7);
  });

  test.each([-0.25, 0.25])('a lens shifted by %d of its pitch fails', (share) => {
    const verdict = look(right, 0, { shiftMm: share * lens.pitchMm });
    expect(verdict.ok).toBe(false);
    // A quarter pitch is a quarter of the views; the lens to the right looks at the print further
    // right, which belongs to the cameras on the left (relation 3).
    expect(verdict.offSteps[0]).toBeCloseTo(-12 * share, 0);
  });

  test('a sheet woven for a shifted lens fails under one that is not, and passes under its own', () => {
    const offsetMm = lens.pitchMm / 4;
    const moved = jobOf({ ...choices, sheet: { offsetMm } });
    const print = printOf(moved.sheet, weaveSheet(moved.sheet, framesOf(moved)));
    expect(look(print, 0).ok).toBe(false);
    expect(inspector(moved)(print, 1.5, { shiftMm: offsetMm })).toMatchObject({ ok: true });
  });

  test('a lens three parts in a thousand off its stated pitch fails', () => {
    expect(look(right, 0, { pitchScale: 1.003 }).ok).toBe(false);
    expect(look(right, 0, { pitchScale: 0.997 }).ok).toBe(false);
  });

  test('views one slot out fail', () => {
    expect(look(printOf(sheet, weaveSheet(sheet, frames, oneSlotOn)), 0).ok).toBe(false);
  });

  test('rows printed upside down fail', () => {
    expect(look(upsideDown(right), 0).ok).toBe(false);
  });

  test('a sheet woven for lying ribs fails under upright ones', () => {
    const turned = {
      ...sheet,
      ribs: 'lying' as const,
      acrossDpi: sheet.alongDpi,
      alongDpi: sheet.acrossDpi,
    };
    const turnedFrames = framesOf({ ...job, sheet: turned });
    const print = printOf(turned, weaveSheet(turned, turnedFrames), 'upright');
    expect(print.acrossDpi).toBe(sheet.acrossDpi);
    expect(look(print, 0).ok).toBe(false);
  });

  test('a scene four times deeper loses sharpness, by more than the 4 dB of docs/optics.md', () => {
    const deep = jobOf({ ...choices, depthMm: 16 });
    const print = printOf(deep.sheet, weaveSheet(deep.sheet, framesOf(deep)));
    expect(look(right, 2).psnrDb - inspector(deep)(print, 2).psnrDb).toBeGreaterThan(4);
  });
});

describe('lying ribs', () => {
  const job = jobOf({ ...choices, sheet: { ribs: 'lying' } });
  const { sheet } = job;
  const frames = framesOf(job);
  const look = inspector(job);
  const right = printOf(sheet, weaveSheet(sheet, frames));

  test.each([-2.5, 0, 0.5, 2])('the right sheet passes from %d steps down', (own) => {
    expect(look(right, own)).toMatchObject({ ok: true });
  });

  test.each(OFF_CENTRE)('frames in reversed order fail from %d', (own) => {
    const verdict = look(printOf(sheet, weaveSheet(sheet, frames, backwards)), own);
    expect(verdict.ok).toBe(false);
    expect(furthest(verdict)).toBeGreaterThan(2);
  });

  test.each([-0.25, 0.25])('a lens shifted by %d of its pitch fails', (share) => {
    expect(look(right, 0, { shiftMm: share * lens.pitchMm }).ok).toBe(false);
  });

  test('rows printed upside down fail', () => {
    expect(look(upsideDown(right), 0).ok).toBe(false);
  });

  test('the lens pitch where the woven pitch belongs fails', () => {
    const print = printOf(sheet, weaveSheet({ ...sheet, viewingPitchMm: lens.pitchMm }, frames));
    expect(look(print, 0).ok).toBe(false);
  });

  test('a sheet woven for upright ribs fails under lying ones', () => {
    const turned = {
      ...sheet,
      ribs: 'upright' as const,
      acrossDpi: sheet.alongDpi,
      alongDpi: sheet.acrossDpi,
    };
    const print = printOf(turned, weaveSheet(turned, framesOf({ ...job, sheet: turned })), 'lying');
    expect(look(print, 0).ok).toBe(false);
  });
});
