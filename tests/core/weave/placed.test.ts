/** Frames that are placed by themselves, as the weave gets them: zoomed, shifted, turned, brighter. */
import fc from 'fast-check';
import sharp from 'sharp';
import { describe, expect, test } from 'vitest';
import { srgbToLinear } from '../../../src/core/colour/srgb.ts';
import type { PictureArea } from '../../../src/core/weave/picture-area.ts';
import type { SourceImage } from '../../../src/core/weave/reduce.ts';
import { lenticuleEdges, reduceFrame } from '../../../src/core/weave/reduce.ts';
import type { SheetSpec } from '../../../src/core/weave/sheet-spec.ts';
import { areaOf } from '../../../src/job/facts/sheet.ts';
import type { Frame } from '../../../src/job/schema/job.ts';
import { newJob } from '../../../src/job/schema/job.ts';
import type { Place } from '../../../src/job/schema/place.ts';
import { grain, sheet, whole } from './grain.ts';

/** Lenticules of twelve dots whose edges lie on dots: sixty over the sheet's 720. */
const even: SheetSpec = {
  ...sheet,
  heightDots: 720,
  viewingPitchMm: (12 * 25.4) / 720,
  lensPitchMm: (12 * 25.4) / 720,
  offsetMm: (6 * 25.4) / 720,
};
const SIDE_MM = 25.4;

const frameOf = (widthPx: number, heightPx: number, place?: Place): Frame => ({
  id: 'lighthouse',
  name: 'lighthouse.jpg',
  byteLength: 1,
  widthPx,
  heightPx,
  kind: 'JPEG',
  sceneLinear: false,
  meanLight: 0.5,
  ...(place === undefined ? {} : { place }),
});
const square = {
  ...newJob(),
  print: { widthMm: SIDE_MM, heightMm: SIDE_MM, viewingDistanceMm: 400 },
};
const areaFor = (frame: Frame): PictureArea => areaOf({ ...square, frames: [frame] }, frame);

/** Smooth light, so that a sample is the light at its middle but for its curvature. */
const light = (x: number, y: number, channel: number): number =>
  30000 +
  9000 * Math.sin(x / 31 + channel) * Math.cos(y / 27) +
  7000 * Math.sin((x - 2 * y) / 61 + 2 * channel);
const smooth = (widthPx: number, heightPx: number): SourceImage => {
  const data = new Uint16Array(widthPx * heightPx * 3);
  for (let y = 0; y < heightPx; y += 1)
    for (let x = 0; x < widthPx; x += 1)
      for (let c = 0; c < 3; c += 1)
        data[(y * widthPx + x) * 3 + c] = Math.round(light(x + 0.5, y + 0.5, c));
  return { widthPx, heightPx, channels: 3, encoding: 'light16', data };
};

/** The pixel that lies at a point of the square print, by the words of the place alone. */
const pixelAt = (frame: Frame, { zoom, right, down, turnDeg }: Place, xMm: number, yMm: number) => {
  const { widthPx, heightPx } = frame;
  // “Fill” lays the shorter side over the print, the longer one centred.
  const mmPerPx = SIDE_MM / Math.min(widthPx, heightPx);
  const fromMiddleX = xMm - SIDE_MM / 2 - right * widthPx * mmPerPx;
  const fromMiddleY = yMm - SIDE_MM / 2 - down * widthPx * mmPerPx;
  const turn = (turnDeg * Math.PI) / 180;
  // What was turned clockwise on the print (y downwards) is turned back.
  const x = fromMiddleX * Math.cos(turn) + fromMiddleY * Math.sin(turn);
  const y = -fromMiddleX * Math.sin(turn) + fromMiddleY * Math.cos(turn);
  return { x: widthPx / 2 + x / mmPerPx / zoom, y: heightPx / 2 + y / mmPerPx / zoom };
};

describe('a frame placed by itself', () => {
  const source = smooth(360, 300);

  test('shows, at every sample, the pixel that its place says', () => {
    const place = fc.record({
      zoom: fc.double({ min: 1.3, max: 3, noNaN: true }),
      right: fc.double({ min: -0.05, max: 0.05, noNaN: true }),
      down: fc.double({ min: -0.05, max: 0.05, noNaN: true }),
      turnDeg: fc.constantFrom(0, 0, 90, -90, 180, 7.5, -31, 133),
    });
    fc.assert(
      fc.property(place, (laid) => {
        const frame = frameOf(360, 300, laid);
        const { pixels, columns, rows } = reduceFrame(source, even, areaFor(frame), {
          alongSamples: 60,
        });
        expect([columns, rows]).toEqual([60, 60]);
        const differences: number[] = [];
        for (let row = 0; row < 60; row += 1)
          for (let column = 0; column < 60; column += 1) {
            const at = [(column + 0.5) / 60, (row + 0.5) / 60] as const;
            const { x, y } = pixelAt(frame, laid, at[0] * SIDE_MM, at[1] * SIDE_MM);
            // At the very edge of the picture there is paper in the sample.
            if (x < 4 || y < 4 || x > 356 || y > 296) continue;
            for (let c = 0; c < 3; c += 1)
              differences.push(Math.abs(pixels[(row * 60 + column) * 3 + c]! - light(x, y, c)));
          }
        expect(differences.length).toBeGreaterThan(3000);
        // Pixels are flat, so the middle of an average over w of them lies off by up to 1 / (8 w): a tenth of a
        // pixel is allowed, at the steepest of this light.
        const steepest = 9000 * Math.hypot(1 / 31, 1 / 27) + (7000 * Math.sqrt(5)) / 61;
        expect(Math.max(...differences)).toBeLessThan(0.1 * steepest);
      }),
      { numRuns: 40, seed: 20 },
    );
  });

  test.each([
    [90, 90],
    [180, 180],
    [-90, 270],
  ])('turned by %i° it is what libvips makes of a turn by %i°', async (turnDeg, theirs) => {
    const image = grain(120, 120);
    const raw = { width: 120, height: 120, channels: 3 as const };
    const turned = await sharp(image.data as Uint8Array, { raw })
      .rotate(theirs)
      .raw()
      .toBuffer();
    const frame = frameOf(120, 120, { zoom: 1, right: 0, down: 0, turnDeg });
    const ours = reduceFrame(image, even, areaFor(frame), { alongSamples: 120 });
    const plain = reduceFrame({ ...image, data: turned }, even, whole(image), {
      alongSamples: 120,
    });
    const differences = ours.pixels.map((value, at) => Math.abs(value - plain.pixels[at]!));
    expect(Math.max(...differences)).toBeLessThanOrEqual(1);
  });

  test('zoomed and shifted by whole pixels it is what libvips cuts out of it', async () => {
    const image = grain(240, 240);
    const raw = { width: 240, height: 240, channels: 3 as const };
    const cut = { left: 90, top: 30, width: 120, height: 120 };
    const part = await sharp(image.data as Uint8Array, { raw })
      .extract(cut)
      .raw()
      .toBuffer();
    // The middle of the cut is to lie in the middle: 30 pixels to the left, 30 down, at twice the size.
    const place = { zoom: 2, right: -60 / 240, down: 60 / 240, turnDeg: 0 };
    const ours = reduceFrame(image, even, areaFor(frameOf(240, 240, place)), {
      alongSamples: 120,
    });
    const plain = reduceFrame(
      { ...image, widthPx: 120, heightPx: 120, data: part },
      even,
      whole({ ...image, widthPx: 120, heightPx: 120 }),
      { alongSamples: 120 },
    );
    expect(ours.pixels).toEqual(plain.pixels);
  });

  test('without a place, or with one that changes nothing, it is the same to the bit', () => {
    const image = grain(137, 150);
    const neutral = { zoom: 1, right: 0, down: 0, turnDeg: 0 };
    const [plain, placed] = [areaFor(frameOf(137, 150)), areaFor(frameOf(137, 150, neutral))];
    expect(plain).not.toHaveProperty('toFrame');
    expect(reduceFrame(image, sheet, placed).pixels).toEqual(
      reduceFrame(image, sheet, plain).pixels,
    );
  });

  test('turned under lying ribs it lies as under upright ones', () => {
    const place = { zoom: 1.5, right: 0.02, down: -0.03, turnDeg: 12 };
    const area = areaFor(frameOf(360, 300, place));
    const upright = reduceFrame(source, even, area, { alongSamples: 60 });
    const lying = reduceFrame(source, { ...even, ribs: 'lying' }, area, { alongSamples: 60 });
    expect(lenticuleEdges(even).every((edge, at) => Math.abs(edge - at / 60) < 1e-9)).toBe(true);
    expect(lying.pixels).toEqual(upright.pixels);
  });
});

describe('beside a turned frame', () => {
  const grey: SourceImage = {
    widthPx: 100,
    heightPx: 100,
    channels: 3,
    encoding: 'light16',
    data: new Uint16Array(30000).fill(20000),
  };
  const area = areaFor(frameOf(100, 100, { zoom: 1, right: 0, down: 0, turnDeg: 45 }));
  const at = (reduced: { pixels: Uint16Array }, column: number, row: number) =>
    reduced.pixels[(row * 60 + column) * 3];

  test('paper shows in the corners, and black for a black ground', () => {
    const white = reduceFrame(grey, even, area, { alongSamples: 60 });
    const black = reduceFrame(grey, even, area, { alongSamples: 60, ground: 'black' });
    for (const [column, row] of [
      [1, 1],
      [58, 1],
      [1, 58],
      [58, 58],
    ] as const) {
      expect(at(white, column, row)).toBe(65535);
      expect(at(black, column, row)).toBe(0);
    }
    expect(at(white, 30, 30)).toBe(20000);
  });

  test('the share of paper is that of the corners of two squares laid across each other', () => {
    const { pixels } = reduceFrame(grey, even, area, { alongSamples: 60 });
    const paper = pixels.reduce((sum, value) => sum + (value - 20000) / 45535, 0) / pixels.length;
    // An octagon is left: 2 (√2 − 1) of the square.
    expect(paper).toBeCloseTo(1 - 2 * (Math.SQRT2 - 1), 2);
  });

  test('a side that is to be mirrored shows the picture instead', () => {
    const mirror = { left: true, top: true, right: true, bottom: true };
    const { pixels } = reduceFrame(grey, even, { ...area, mirror }, { alongSamples: 60 });
    expect(pixels.every((value) => value === 20000)).toBe(true);
  });
});

describe('brightness of one frame', () => {
  const gains = [0.5, 1, 1.25] as const;

  test.each([
    ['srgb8', 1, (code: number) => srgbToLinear(code / 255)],
    ['srgb16', 257, (code: number) => srgbToLinear(code / 255)],
    ['linear', 1 / 255, (code: number) => code / 255],
  ] as const)('is a factor on its light, up to white (%s)', (encoding, scale, lightOf) => {
    const { data } = grain(60, 60);
    const made =
      encoding === 'srgb8'
        ? data
        : encoding === 'srgb16'
          ? Uint16Array.from(data, (code) => code * scale)
          : Float32Array.from(data, (code) => code * scale);
    const image: SourceImage = { ...grain(60, 60), encoding, data: made };
    for (const turnDeg of [0, 90]) {
      const place = { zoom: 1, right: 0, down: 0, turnDeg };
      const { pixels } = reduceFrame(image, even, areaFor(frameOf(60, 60, place)), {
        alongSamples: 60,
        gains,
      });
      const differences = Array.from({ length: 3600 }, (_, i) => {
        const [x, y] = [i % 60, Math.floor(i / 60)];
        // Turned clockwise, the left column is the top row.
        const from = turnDeg === 0 ? i : (59 - x) * 60 + y;
        return [0, 1, 2].map((c) => {
          const wanted = Math.min(1, lightOf(data[from * 3 + c]!) * gains[c]!) * 65535;
          return Math.abs(pixels[i * 3 + c]! - wanted);
        });
      }).flat();
      expect(Math.max(...differences)).toBeLessThan(1);
    }
  });
});
