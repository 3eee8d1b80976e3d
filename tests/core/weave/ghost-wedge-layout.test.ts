/** The wedge as printed: which way it goes through the printer, whichever way its ribs run. */
import { expect, it } from 'vitest';
import { rowsOfPainting } from '../../../src/core/pitch/painted-rows.ts';
import { wedgePainting, wedgeSize } from '../../../src/core/weave/ghost-wedge-layout.ts';
import type { WedgeSpec } from '../../../src/core/weave/ghost-wedge.ts';

const specOf = (ribs: WedgeSpec['ribs']): WedgeSpec => ({
  kind: 'ghost-wedge',
  acrossDpi: 360,
  alongDpi: 360,
  ribs,
  viewingPitchMm: 0.424,
  viewSlots: 12,
  columns: 'blended',
  reachSlots: 1,
  strongest: 0.3,
  patchDots: 700,
  readFromMm: 400,
});

/** Black dots of each of the file's top rows, from `left` on, for `side` dots. */
const blackByRow = (ribs: WedgeSpec['ribs'], side: number) => {
  const spec = specOf(ribs);
  const { widthDots } = wedgeSize(spec);
  // With lying ribs the target is turned, its left edge on top: its first corner is the file's upper right.
  const left = ribs === 'upright' ? 0 : widthDots - side;
  const rows = rowsOfPainting(wedgePainting(spec))(0, side);
  return Array.from({ length: side }, (_, row) => {
    let black = 0;
    for (let x = left; x < left + side; x += 1)
      if (rows[(row * widthDots + x) * 3] === 0) black += 1;
    return black;
  });
};

it.each(['upright', 'lying'] as const)('has an arrow to the top of the file, ribs %s', (ribs) => {
  // The first ten millimetres each way hold nothing else.
  const rows = blackByRow(ribs, Math.round((10 * 360) / 25.4)).filter((black) => black > 0);
  const widest = Math.max(...rows);
  expect(widest).toBeGreaterThan(80);
  // A point that widens evenly down to the barbs, then a shaft, narrow and even.
  const barbs = rows.indexOf(widest);
  const head = rows.slice(0, barbs + 1);
  expect(head[0]).toBeLessThan(widest / 8);
  expect(head.every((black, row) => row === 0 || black >= head[row - 1]!)).toBe(true);
  const shaft = rows.slice(rows.findIndex((black, row) => row > barbs && black < widest / 2));
  expect(shaft.length).toBeGreaterThan(30);
  expect(Math.max(...shaft) - Math.min(...shaft)).toBeLessThanOrEqual(1);
});
