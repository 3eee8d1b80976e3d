import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fitLinear, fitPicture } from '../../../src/core/proof/fit-picture.ts';
import type { Picture, ProofScene } from '../../../src/core/proof/scene.ts';
import { lenticulesPerPixel, printBox, slotsReady } from '../../../src/core/proof/scene.ts';

const grey = (columns: number, rows: number, codeAt: (column: number, row: number) => number) => ({
  columns,
  rows,
  pixels: Uint8Array.from(
    Array.from({ length: columns * rows }, (_, at) => {
      const code = codeAt(at % columns, Math.floor(at / columns));
      return [code, code, code, 255];
    }).flat(),
  ),
});

describe('a picture brought to another size', () => {
  it('is the same object at its own size', () => {
    const picture = grey(3, 2, () => 7);
    expect(fitPicture(picture, 3, 2)).toBe(picture);
  });

  it('keeps an even colour exactly, larger or smaller', () => {
    const sizes = fc.integer({ min: 1, max: 40 });
    fc.assert(
      fc.property(sizes, sizes, sizes, sizes, fc.nat(255), (c, r, columns, rows, code) => {
        const { pixels } = fitPicture(
          grey(c, r, () => code),
          columns,
          rows,
        );
        expect(pixels).toHaveLength(columns * rows * 4);
        for (let at = 0; at < pixels.length; at += 4) {
          expect(pixels[at]).toBe(code);
          expect(pixels[at + 3]).toBe(255);
        }
      }),
    );
  });

  // IEC 61966-2-1: half of white's light is code 187.516.
  it('averages light, not codes', () => {
    const chequers = grey(8, 8, (column, row) => ((column + row) % 2) * 255);
    const { pixels } = fitPicture(chequers, 4, 4);
    for (let at = 0; at < pixels.length; at += 4) expect(pixels[at]).toBe(188);
  });

  it('weighs parts of samples: three into two take one and a half each', () => {
    const { light } = fitLinear(
      grey(3, 1, (column) => (column === 1 ? 255 : 0)),
      2,
      1,
    );
    // A third of each half is the bright sample.
    expect(light[0]).toBe(Math.round(65535 / 3));
    expect(light[3]).toBe(Math.round(65535 / 3));
  });

  it('interpolates upwards without leaving the range of the samples', () => {
    const { light } = fitLinear(
      grey(2, 1, (column) => column * 255),
      8,
      1,
    );
    const ramp = Array.from({ length: 8 }, (_, at) => light[at * 3] as number);
    expect(ramp).toEqual([...ramp].sort((a, b) => a - b));
    expect(ramp[0]).toBe(0);
    expect(ramp[7]).toBe(65535);
  });
});

const one: Picture = grey(1, 1, () => 0);
const sceneOf = (change: Partial<ProofScene>): ProofScene => ({
  frames: [one],
  slots: [0],
  ribs: 'upright',
  widthMm: 200,
  heightMm: 100,
  lenticules: 480,
  acrossStart: 0,
  acrossSpan: 480,
  ...change,
});

describe('the print’s place on the canvas', () => {
  it('is as large as fits, in the print’s shape, in the middle', () => {
    expect(printBox(sceneOf({}), 400, 400)).toEqual({ left: 0, top: 100, width: 400, height: 200 });
    expect(printBox(sceneOf({}), 1000, 100)).toEqual({
      left: 400,
      top: 0,
      width: 200,
      height: 100,
    });
  });

  it('counts lenticules to the pixel across the ribs', () => {
    const box = { left: 0, top: 0, width: 240, height: 120 };
    expect(lenticulesPerPixel(sceneOf({}), box)).toBe(2);
    expect(lenticulesPerPixel(sceneOf({ ribs: 'lying' }), box)).toBe(4);
  });
});

describe('slots whose frame is not ready', () => {
  it('show that of the nearest slot which is, the left one when two are as near', () => {
    const frames = [undefined, one, undefined, one];
    expect(slotsReady(sceneOf({ frames, slots: [0, 1, 2, 3] }))).toEqual([1, 1, 1, 3]);
  });
  it('are none to draw while nothing is ready', () => {
    expect(slotsReady(sceneOf({ frames: [undefined], slots: [0, 0] }))).toEqual([]);
    expect(slotsReady(sceneOf({ frames: [], slots: [] }))).toEqual([]);
  });
});
