/** Letters of a title on their canvas, by a pen whose every letter is half an em wide and whose capitals are 0.7 high. */
import { describe, expect, test } from 'vitest';
import type { Letters, Pen } from '../../../src/studio/frames/typed/lay-out.ts';
import {
  directionOf,
  drawLetters,
  layOutWithin,
} from '../../../src/studio/frames/typed/lay-out.ts';

const plainPen = () => {
  const drawn: { text: string; x: number; y: number; how: string }[] = [];
  const pen = {
    font: '',
    direction: 'ltr',
    textAlign: 'left',
    lineWidth: 0,
    measureText(text: string) {
      const em = Number(/ ([\d.]+)px/.exec(pen.font)?.[1]);
      const width = (text.length * em) / 2;
      return {
        width,
        actualBoundingBoxLeft: 0,
        actualBoundingBoxRight: width,
        actualBoundingBoxAscent: 0.7 * em,
        actualBoundingBoxDescent: 0.2 * em,
      };
    },
    strokeText: (text: string, x: number, y: number) =>
      drawn.push({ text, x, y, how: `stroke ${pen.lineWidth}` }),
    fillText: (text: string, x: number, y: number) =>
      drawn.push({ text, x, y, how: `${pen.textAlign} ${pen.direction}` }),
  };
  return { pen: pen as unknown as Pen, drawn };
};

const letters: Letters = {
  text: 'Heron\nEgret!',
  weight: 700,
  family: 'serif',
  capEm: 0.7,
  capMm: 7,
  colour: '#ffffff',
  outlineMm: 0.5,
  outlineColour: '#000000',
  align: 'middle',
};
const ROOM = { mostPx: 1e7, mostSide: 10000 };

describe('typed letters', () => {
  test('an em follows from the capitals, and the middle of the letters is the middle of their picture', () => {
    const { pen } = plainPen();
    const { font, lines, width, height } = layOutWithin(pen, letters, 10, ROOM);
    // 70 px of capitals: ems of 100 px, lines 120 px apart, 6 letters of 50 px.
    expect(font).toMatch(/^700 100(\.0+1)?px serif$/);
    const [first, second] = lines as [(typeof lines)[0], (typeof lines)[0]];
    expect(second.y - first.y).toBe(120);
    expect(Math.abs((first.y - 70 + second.y) / 2 - height / 2)).toBeLessThanOrEqual(0.5);
    expect(first.x).toBe(width / 2);
    // The outline, and a little for smooth edges, to either side.
    expect(width).toBeGreaterThanOrEqual(300 + 2 * 5);
    expect(width).toBeLessThan(300 + 2 * 5 + 10);
  });

  test('lines meet left, in the middle or right; outlines lie beneath all letters', () => {
    for (const [align, at, as] of [
      ['left', 0, 'left'],
      ['middle', 0.5, 'center'],
      ['right', 1, 'right'],
    ] as const) {
      const { pen, drawn } = plainPen();
      const layout = layOutWithin(pen, { ...letters, align }, 10, ROOM);
      drawLetters(pen, { ...letters, align }, layout);
      expect(drawn.map(({ how }) => how)).toEqual([
        'stroke 10',
        'stroke 10',
        `${as} ltr`,
        `${as} ltr`,
      ]);
      for (const { x } of drawn) expect(x).toBe((layout.width - 300) / 2 + at * 300);
    }
  });

  test('each line runs as its first letter does: UAX 9, P2 and P3', () => {
    expect(directionOf('12 زهرة')).toBe('rtl');
    expect(directionOf('«שלום» a')).toBe('rtl');
    expect(directionOf('a שלום')).toBe('ltr');
    expect(directionOf('123')).toBe('ltr');
    const text = 'Heron\nشلدم';
    const both = plainPen();
    const spoken = { ...letters, text, outlineMm: 0 };
    drawLetters(both.pen, spoken, layOutWithin(both.pen, spoken, 10, ROOM));
    expect(both.drawn.map(({ how }) => how)).toEqual(['center ltr', 'center rtl']);
  });

  test('large letters have fewer pixels, and the same shape', () => {
    const { pen } = plainPen();
    const large = layOutWithin(pen, letters, 1000, ROOM);
    expect(large.width * large.height).toBeLessThanOrEqual(ROOM.mostPx);
    expect(Math.max(large.width, large.height)).toBeLessThanOrEqual(ROOM.mostSide);
    const small = layOutWithin(pen, letters, 10, ROOM);
    expect(large.width / large.height).toBeCloseTo(small.width / small.height, 1);
  });
});
