import { describe, expect, test } from 'vitest';
import { checkSizes, sayOdd, shapesDiffer } from '../../../src/core/frames/shapes.ts';

const frame = (name: string, widthPx: number, heightPx: number) => ({ name, widthPx, heightPx });

describe('sizes and shapes', () => {
  test('frames of one size have nothing odd', () => {
    const { usual, odd } = checkSizes([frame('a', 1600, 2000), frame('b', 1600, 2000)]);
    expect(usual).toEqual({ widthPx: 1600, heightPx: 2000 });
    expect(odd).toEqual([]);
  });

  test('a smaller one of the same shape differs in size, a turned one in shape', () => {
    const { odd } = checkSizes([
      frame('a', 1600, 2000),
      frame('b', 800, 1000),
      frame('c', 1600, 2000),
      frame('d', 2000, 1600),
    ]);
    expect(odd.map(({ frame: { name }, differs }) => [name, differs])).toEqual([
      ['b', 'size'],
      ['d', 'shape'],
    ]);
  });

  test('of sizes equally frequent the first one is the usual', () => {
    const { usual, odd } = checkSizes([frame('a', 10, 10), frame('b', 20, 20)]);
    expect(usual).toEqual({ widthPx: 10, heightPx: 10 });
    expect(odd.map((one) => one.frame.name)).toEqual(['b']);
  });

  test('no frames, no usual size', () => {
    expect(checkSizes([])).toEqual({ usual: undefined, odd: [] });
  });

  test('half a per cent is the line, whichever is the larger', () => {
    expect(shapesDiffer(1, 1.0049)).toBe(false);
    expect(shapesDiffer(1, 1.0051)).toBe(true);
    expect(shapesDiffer(1.0051, 1)).toBe(true);
  });

  test('the sentence names the file and both sizes', () => {
    const sentence = sayOdd(
      { frame: frame('gull.png', 640, 480), differs: 'shape' },
      { widthPx: 600, heightPx: 750 },
    );
    expect(sentence).toContain('gull.png is 640 × 480 px');
    expect(sentence).toContain('600 × 750 px');
  });
});
