/**
 * Photos of failed prints, traced and taken on the test side, read by the studio. A few of the sixty of
 * tests/bench/mend.bench.mjs, and photos that cannot be read.
 */
import { describe, expect, test } from 'vitest';
import { noFaults } from '../../src/core/mend/fault.ts';
import { readMendPhoto } from '../../src/core/mend/photo/read-photo.ts';
import type { MendPhotoRequest } from '../../src/core/mend/photo/terms.ts';
import { drawSeen, seenFrames, seenScene } from '../../src/core/mend/seen.ts';
import { randomFrom } from './lens-scan.ts';
import { plainPhoto, printScene, takeMendPhoto } from './mend-photo.ts';
import {
  ALLOWED_LPI,
  ALLOWED_RAD,
  liftedCase,
  photoCase,
  photoSetup,
  readingOf,
  truthOf,
} from './mend-photo-cases.ts';

const printed = printScene(4);

/** RGBA, rows become columns. */
const onItsSide = (codes: ArrayLike<number>, columns: number, rows: number): Uint8ClampedArray => {
  const out = new Uint8ClampedArray(columns * rows * 4);
  for (let y = 0; y < rows; y += 1)
    for (let x = 0; x < columns; x += 1)
      for (let c = 0; c < 4; c += 1)
        out[(x * rows + y) * 4 + c] = codes[(y * columns + x) * 4 + c]!;
  return out;
};

describe('photos of traced prints', () => {
  test('taken on its side, for lying ribs: pitch, skew and place within the plan’s tolerance', () => {
    const photo = photoCase(205);
    const { pixels, corners } = takeMendPhoto(printed, photo);
    const [topLeft, topRight, bottomRight, bottomLeft] = corners.map(({ xPx, yPx }) => ({
      xPx: yPx,
      yPx: xPx,
    }));
    const { sheet } = photoSetup;
    const read = readMendPhoto({
      pixels: {
        widthPx: pixels.heightPx,
        heightPx: pixels.widthPx,
        data: onItsSide(pixels.data, pixels.widthPx, pixels.heightPx),
      },
      pictures: printed.pictures.map(({ columns, rows, pixels: codes }) => ({
        columns: rows,
        rows: columns,
        pixels: onItsSide(codes, columns, rows),
      })),
      setup: {
        ...photoSetup,
        sheet: {
          ...sheet,
          ribs: 'lying',
          widthDots: sheet.heightDots,
          heightDots: sheet.widthDots,
        },
      },
      blur: { spot: 0.15, dot: 0.1 },
      corners: [topLeft!, bottomLeft!, bottomRight!, topRight!],
      cameraMm: photo.cameraMm,
    });
    if (!read.ok) throw new Error(read.sentence);
    const truth = truthOf(photo);
    expect(Math.abs(read.pitch.viewingLpi.value - truth.lpi)).toBeLessThan(ALLOWED_LPI);
    expect(Math.abs(truth.skewRad)).toBeGreaterThan(ALLOWED_RAD);
    // A picture on its side is mirrored: what was turned clockwise is turned the other way.
    expect(Math.abs(read.skew.rad.value + truth.skewRad)).toBeLessThan(ALLOWED_RAD);
    const place = (read.offsetMm.value - truth.offsetMm) / (25.4 / 60);
    expect(Math.abs(place - Math.round(place))).toBeLessThan(0.1);
  });

  test('views that the weave itself moved are in their place', () => {
    // A print slid by a quarter of a pitch is what a weave moved by as much prints, but for the picture’s rib.
    const offsetMm = -photoSetup.sheet.viewingPitchMm / 4;
    const photo = { ...plainPhoto, wrong: { offsetMm } };
    const place = (moved: typeof photoSetup) => {
      const read = readingOf(printed, photo, moved);
      if (!read.ok) throw new Error(read.sentence);
      return read.offsetMm.value / photoSetup.sheet.viewingPitchMm;
    };
    expect(place(photoSetup)).toBeCloseTo(-0.25, 1);
    expect(place({ ...photoSetup, sheet: { ...photoSetup.sheet, offsetMm } })).toBeCloseTo(0, 1);
  });

  test('a bubble is pointed out where it is, and does not pull the pitch', () => {
    const bubble = { xMm: 25, yMm: 10, radiusMm: 20, airMm: 0.4 };
    const read = readingOf(printed, { ...plainPhoto, wrong: { lensScale: 1.003, bubble } });
    if (!read.ok) throw new Error(read.sentence);
    const [part] = read.lifted;
    expect(part).toBeDefined();
    // The picture is 120 by 90 mm.
    expect(Math.abs(part!.x - 25 / 120)).toBeLessThan(0.08);
    expect(Math.abs(part!.y - 10 / 90)).toBeLessThan(0.08);
    const truth = truthOf({ ...plainPhoto, wrong: { lensScale: 1.003 } });
    expect(Math.abs(read.pitch.viewingLpi.value - truth.lpi)).toBeLessThan(ALLOWED_LPI);
  });
});

describe('lifted places', () => {
  test('are not seen in a print that is soft all over and lies flat', () => {
    const read = readingOf(printed, { ...plainPhoto, wrong: { lensScale: 1.004, smear: 0.8 } });
    if (!read.ok) throw new Error(read.sentence);
    expect(read.lifted).toEqual([]);
  });

  test('are seen where a bubble is, and at most once in twenty prints where none is @wider', () => {
    let [flat, wrongly, bubbles, seen] = [0, 0, 0, 0];
    for (let number = 300; number < 316; number += 1) {
      const photo = liftedCase(number);
      const { bubble } = photo.wrong;
      const read = readingOf(printed, photo);
      if (!read.ok) continue;
      if (bubble === undefined) {
        flat += 1;
        wrongly += read.lifted.length;
        continue;
      }
      bubbles += 1;
      // The picture is 120 by 90 mm.
      const found = read.lifted.some(
        ({ x, y }) => Math.hypot(120 * x - bubble.xMm, 90 * y - bubble.yMm) < bubble.radiusMm,
      );
      if (found) seen += 1;
    }
    expect(flat + bubbles).toBeGreaterThan(13);
    expect(wrongly).toBeLessThanOrEqual(flat / 20);
    expect(seen / bubbles).toBeGreaterThanOrEqual(0.6);
  });
});

describe('photos that say nothing', () => {
  const [widthPx, heightPx] = [240, 180];
  const photoOf = (code: (i: number) => number) => ({
    widthPx,
    heightPx,
    data: Uint8ClampedArray.from({ length: widthPx * heightPx * 4 }, (_, i) =>
      i % 4 === 3 ? 255 : code(i),
    ),
  });
  const request = (changed: Partial<MendPhotoRequest>): MendPhotoRequest => ({
    pixels: photoOf(() => 128),
    pictures: printed.pictures,
    setup: photoSetup,
    blur: { spot: 0.15, dot: 0.1 },
    ...changed,
  });
  /** What the studio itself would draw of the pictures, too fine by so many bands. */
  const drawn = (pictures: MendPhotoRequest['pictures'], pitchScale: number) => {
    const frames = seenFrames(pictures, photoSetup.sheet, widthPx, heightPx);
    const faults = { ...noFaults, pitchScale };
    const scene = seenScene(photoSetup, faults, frames, { spot: 0.15, dot: 0.1 });
    return { widthPx, heightPx, data: drawSeen(scene, 0) };
  };
  const reasonOf = (changed: Partial<MendPhotoRequest>) => {
    const read = readMendPhoto(request(changed));
    return read.ok ? read : read.reason;
  };

  test('an even grey is too plain', () => {
    expect(reasonOf({})).toBe('flat');
  });

  test('another picture is not this print', () => {
    const random = randomFrom(5);
    const noise = Array.from({ length: widthPx * heightPx }, () => 255 * random());
    expect(reasonOf({ pixels: photoOf((i) => noise[i >> 2]!) })).toBe('no-match');
  });

  test('frames all alike tell no view', () => {
    const pictures = printed.pictures.map(() => printed.pictures[5]!);
    expect(reasonOf({ pictures, pixels: drawn(pictures, 0.995) })).toBe('alike');
  });

  test('a sway there and back looks the same for a print too coarse and one too fine', () => {
    const pictures = printed.pictures.map((_, i) => printed.pictures[2 * Math.min(i, 11 - i)]!);
    expect(reasonOf({ pictures, pixels: drawn(pictures, 0.993) })).toBe('two-ways');
  });

  test('crossed corners are told', () => {
    const corners = [
      { xPx: 0, yPx: 0 },
      { xPx: 0, yPx: 180 },
      { xPx: 240, yPx: 180 },
      { xPx: 240, yPx: 0 },
    ] as const;
    const read = readMendPhoto(request({ corners }));
    expect(read).toMatchObject({ ok: false, reason: 'corners' });
    expect(!read.ok && read.whatToDo).toContain('top left');
  });
});
