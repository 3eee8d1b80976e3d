import fc from 'fast-check';
import sharp from 'sharp';
import { describe, expect, test } from 'vitest';
import {
  code8OfLinear,
  linearOfCode8,
  linearToSrgb,
  srgbToLinear,
} from '../../../src/core/colour/srgb.ts';
import { lenticulesOver } from '../../../src/core/weave/column-map.ts';
import { pictureArea } from '../../../src/core/weave/picture-area.ts';
import type { SourceImage } from '../../../src/core/weave/reduce.ts';
import { ownSamplesAlong, reduceFrame } from '../../../src/core/weave/reduce.ts';
import { grain, sheet, whole } from './grain.ts';
import type { SheetSpec } from '../../../src/core/weave/sheet-spec.ts';

describe('sRGB (IEC 61966-2-1)', () => {
  test('codes 10, 11, 128 and 188 are the published linear values', () => {
    const linear = [10, 11, 128, 188].map((code) => srgbToLinear(code / 255));
    const published = [0.00303527, 0.00334654, 0.215861, 0.502886];
    for (const [i, value] of published.entries()) expect(linear[i]).toBeCloseTo(value, 6);
    expect(linearToSrgb(0.5) * 255).toBeCloseTo(187.516, 3);
  });
  test('every code survives the trip through 16-bit linear light', () => {
    const back = code8OfLinear();
    const there = linearOfCode8();
    for (let code = 0; code < 256; code += 1)
      expect(back[Math.round(there[code] as number)]).toBe(code);
  });
});

describe('reducing a frame', () => {
  test('is the area average in linear light, by a plain double loop', () => {
    const image = grain(137, 60);
    const reduced = reduceFrame(image, sheet, whole(image), { alongSamples: 60 });
    const { first, count } = lenticulesOver(sheet);
    expect(reduced.columns).toBe(count);
    const printMm = 25.4;
    for (const row of [0, 13, 59])
      for (let k = 0; k < count; k += 1) {
        const edge = (i: number) =>
          Math.min(1, Math.max(0, ((first + i - 0.5) * 0.4239) / printMm + 0.5)) * 137;
        const [left, right] = [edge(k), edge(k + 1)];
        let sum = 0;
        for (let x = 0; x < 137; x += 1) {
          const covered = Math.max(0, Math.min(right, x + 1) - Math.max(left, x));
          sum += covered * srgbToLinear((image.data[(row * 137 + x) * 3] as number) / 255);
        }
        const wanted = (sum / (right - left)) * 65535;
        // One step of 16 bits for rounding; edge lenticules under a pixel wide are widened to one.
        if (right - left >= 1)
          expect(
            Math.abs((reduced.pixels[(row * count + k) * 3] as number) - wanted),
          ).toBeLessThanOrEqual(1);
      }
  });

  test('ten pixels to each of sixty whole lenticules: sixty plain averages of ten', () => {
    const exact = {
      ...sheet,
      heightDots: 20,
      viewingPitchMm: (12 * 25.4) / 720,
      lensPitchMm: (12 * 25.4) / 720,
    };
    const half = { ...exact, offsetMm: exact.viewingPitchMm / 2 };
    const image = grain(600, 20);
    const { columns, pixels } = reduceFrame(image, half, whole(image), { alongSamples: 20 });
    expect(columns).toBe(60);
    for (let k = 0; k < 60; k += 1) {
      let sum = 0;
      for (let x = 0; x < 10; x += 1)
        sum += srgbToLinear((image.data[(k * 10 + x) * 3] as number) / 255);
      expect(Math.abs((pixels[k * 3] as number) - (sum / 10) * 65535)).toBeLessThanOrEqual(1);
    }
  });

  test.each(['upright', 'lying'] as const)(
    'agrees with the means that libvips finds, ribs %s',
    async (ribs) => {
      // Seven pixels to a lenticule across and three to a sample along, all edges on pixels: each
      // sample is the mean of a rectangle, which libvips works out in float64 (`vips stats`).
      const [lenticules, samples] = [20, 6];
      const upright = ribs === 'upright';
      const [widthPx, heightPx] = upright ? [140, 18] : [18, 140];
      const bytes = grain(widthPx, heightPx).data as Uint8Array;
      const light = Float32Array.from(bytes, (value) => value / 255);
      const laid: SheetSpec = {
        ...sheet,
        ribs,
        widthDots: upright ? 240 : 60,
        heightDots: upright ? 60 : 240,
        viewingPitchMm: (12 * 25.4) / 720,
        lensPitchMm: (12 * 25.4) / 720,
        offsetMm: (6 * 25.4) / 720,
      };
      const image: SourceImage = {
        widthPx,
        heightPx,
        channels: 3,
        encoding: 'linear',
        data: light,
      };
      const reduced = reduceFrame(image, laid, whole(image), { alongSamples: samples });
      expect([reduced.columns, reduced.rows]).toEqual(upright ? [20, 6] : [6, 20]);
      const raw = { width: widthPx, height: heightPx, channels: 3 as const };
      for (const lenticule of [0, 1, 9, lenticules - 1])
        for (const sample of [0, 2, samples - 1]) {
          const [column, row] = upright ? [lenticule, sample] : [sample, lenticule];
          const [width, height] = upright ? [7, 3] : [3, 7];
          const cut = { left: column * width, top: row * height, width, height };
          const part = await sharp(bytes, { raw }).extract(cut).raw().toBuffer();
          const { channels } = await sharp(part, { raw: { ...raw, width, height } }).stats();
          channels.forEach(({ mean }, c) => {
            const found = reduced.pixels[(row * reduced.columns + column) * 3 + c] as number;
            expect(Math.abs(found - (mean / 255) * 65535)).toBeLessThanOrEqual(0.51);
          });
        }
    },
  );

  test('an even frame stays even, however it is laid on the print', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 300 }),
        fc.integer({ min: 1, max: 300 }),
        fc.integer({ min: 0, max: 255 }),
        fc.double({ min: -1, max: 1, noNaN: true }),
        fc.constantFrom('upright' as const, 'lying' as const),
        (widthPx, heightPx, code, shift, ribs) => {
          const data = new Uint8Array(widthPx * heightPx * 3).fill(code);
          const image = { ...grain(1, 1), widthPx, heightPx, data };
          const area = pictureArea(widthPx, heightPx, 0.8, 'fill', shift, -shift);
          const { pixels } = reduceFrame(image, { ...sheet, ribs }, area);
          const wanted = Math.round(srgbToLinear(code / 255) * 65535);
          const off = pixels.reduce((most, value) => Math.max(most, Math.abs(value - wanted)), 0);
          expect(off).toBeLessThanOrEqual(1);
        },
      ),
      { numRuns: 40 },
    );
  });

  test('fit leaves paper white beside the frame and none of it inside', () => {
    const data = new Uint8Array(100 * 400 * 3);
    const image = { ...grain(1, 1), widthPx: 100, heightPx: 400, data };
    const area = pictureArea(100, 400, 0.8, 'fit');
    const reduced = reduceFrame(image, sheet, area);
    const row = Math.floor(reduced.rows / 2) * reduced.columns;
    const red = Array.from({ length: reduced.columns }, (_, k) => reduced.pixels[(row + k) * 3]);
    expect(red[0]).toBe(65535);
    expect(red.at(-1)).toBe(65535);
    expect(red[Math.floor(reduced.columns / 2)]).toBe(0);
    // The frame is 100 of 320 pixels wide on the print.
    const dark = red.filter((value) => value === 0).length;
    expect(dark / reduced.columns).toBeCloseTo(100 / 320, 1);
  });

  test('fewer pixels than lenticules are interpolated, not repeated', () => {
    const ramp = Float32Array.from({ length: 10 * 3 }, (_, i) => Math.floor(i / 3) / 10);
    const image: SourceImage = {
      widthPx: 10,
      heightPx: 1,
      channels: 3,
      encoding: 'linear',
      data: ramp,
    };
    const { pixels, columns } = reduceFrame(image, sheet, whole(image), { alongSamples: 1 });
    // On a ramp straight interpolation is the ramp itself: pixel i has light i / 10 at its middle,
    // so light at x is (x − ½) / 10, held from the middles of the end pixels outwards.
    const { first } = lenticulesOver(sheet);
    for (let k = 1; k < columns - 1; k += 1) {
      const x = 10 * (((first + k) * 0.4239) / 25.4 + 0.5);
      const wanted = Math.min(9, Math.max(0, x - 0.5)) / 10;
      expect(Math.abs((pixels[k * 3] as number) - wanted * 65535)).toBeLessThanOrEqual(1);
    }
  });

  test('16-bit codes, scene-linear light and a fourth channel come to the same light', () => {
    const codes = grain(50, 20);
    const sixteen: SourceImage = {
      ...codes,
      encoding: 'srgb16',
      data: Uint16Array.from(codes.data, (code) => code * 257),
    };
    const linear: SourceImage = {
      ...codes,
      encoding: 'linear',
      data: Float32Array.from(codes.data, (code) => srgbToLinear(code / 255)),
    };
    const four: SourceImage = {
      ...codes,
      channels: 4,
      data: Uint8Array.from({ length: 50 * 20 * 4 }, (_, i) =>
        i % 4 === 3 ? 255 : (codes.data[Math.floor(i / 4) * 3 + (i % 4)] as number),
      ),
    };
    const wanted = reduceFrame(codes, sheet, whole(codes)).pixels;
    for (const image of [sixteen, linear, four]) {
      const { pixels } = reduceFrame(image, sheet, whole(image));
      const off = pixels.reduce((most, v, i) => Math.max(most, Math.abs(v - (wanted[i] ?? 0))), 0);
      expect(off).toBeLessThanOrEqual(1);
    }
  });

  test('exposure doubles light by the stop, clips at white, and no light is no number too', () => {
    const data = Float32Array.of(0.1, 0.3, 0.8, NaN, -1, Infinity);
    const image: SourceImage = { widthPx: 2, heightPx: 1, channels: 3, encoding: 'linear', data };
    const area = { left: 0, top: 0, width: 1, height: 1 };
    const one = reduceFrame(image, sheet, area, { exposureStops: 1, alongSamples: 1 });
    const [r, g, b] = one.pixels;
    expect((r as number) / 65535).toBeCloseTo(0.2, 4);
    expect((g as number) / 65535).toBeCloseTo(0.6, 4);
    expect(b).toBe(65535);
    const second = reduceFrame(image, sheet, { ...area, left: 1 }, { alongSamples: 1 });
    // In the middle of the second pixel, where nothing of the first is mixed in.
    const middle = Math.floor(second.columns / 2) * 3;
    expect([...second.pixels.subarray(middle, middle + 3)]).toEqual([0, 0, 65535]);
  });

  test('rows along are the frame’s own, and never more than the sheet has', () => {
    expect(ownSamplesAlong(sheet, { left: 0, top: 0, width: 600, height: 750 })).toBe(750);
    expect(ownSamplesAlong(sheet, { left: 0, top: 0, width: 6000, height: 7500 })).toBe(900);
    const lying = { ...sheet, ribs: 'lying' as const };
    expect(ownSamplesAlong(lying, { left: 0, top: 0, width: 600, height: 750 })).toBe(600);
  });
});

describe('the picture area', () => {
  test('fill stays inside the frame, fit holds all of it, both keep the print’s shape', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 5000 }),
        fc.integer({ min: 1, max: 5000 }),
        fc.double({ min: 0.1, max: 10, noNaN: true }),
        fc.double({ min: -1, max: 1, noNaN: true }),
        (width, height, shape, shift) => {
          for (const placement of ['fill', 'fit'] as const) {
            const area = pictureArea(width, height, shape, placement, shift, shift);
            expect(area.width / area.height / shape).toBeCloseTo(1, 9);
            const inner = placement === 'fill' ? area : { left: 0, top: 0, width, height };
            const outer = placement === 'fill' ? { left: 0, top: 0, width, height } : area;
            const slack = 1e-6 * Math.max(width, height, outer.width, outer.height);
            expect(inner.left).toBeGreaterThanOrEqual(outer.left - slack);
            expect(inner.top).toBeGreaterThanOrEqual(outer.top - slack);
            expect(inner.left + inner.width).toBeLessThanOrEqual(outer.left + outer.width + slack);
            expect(inner.top + inner.height).toBeLessThanOrEqual(outer.top + outer.height + slack);
          }
        },
      ),
    );
  });
});
