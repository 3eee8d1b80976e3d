/** The dots of the image in a sheet's PDF, read with Node's zlib and PNG's filters written again. */
import { inflateSync } from 'node:zlib';
import { expect } from 'vitest';

/** The section's Paeth predictor (9.4), its branches as written there. */
const nearest = (a: number, b: number, c: number): number => {
  const p = a + b - c;
  const [pa, pb, pc] = [Math.abs(p - a), Math.abs(p - b), Math.abs(p - c)];
  if (pa <= pb && pa <= pc) return a;
  return pb <= pc ? b : c;
};

/** PNG's filters undone (PNG 3rd edition, 9.2), written again for the three that the weave uses. */
const unfilter = (filtered: Buffer, rowBytes: number, rows: number): Buffer => {
  const out = Buffer.alloc(rowBytes * rows);
  for (let row = 0; row < rows; row += 1) {
    const type = filtered[row * (rowBytes + 1)];
    expect([1, 2, 4]).toContain(type);
    for (let i = 0; i < rowBytes; i += 1) {
      const at = row * rowBytes + i;
      const left = i < 3 ? 0 : (out[at - 3] ?? 0);
      const up = out[at - rowBytes] ?? 0;
      const upLeft = i < 3 ? 0 : (out[at - rowBytes - 3] ?? 0);
      const before = type === 1 ? left : type === 2 ? up : nearest(left, up, upLeft);
      out[at] = ((filtered[row * (rowBytes + 1) + 1 + i] ?? 0) + before) & 255;
    }
  }
  return out;
};

/** Dots of a sheet's PDF: row-major RGB, 8 bit. */
export const dotsOfPdf = (
  file: Buffer,
  { widthDots, heightDots }: { readonly widthDots: number; readonly heightDots: number },
): Buffer => {
  const text = file.toString('latin1');
  const from = text.indexOf('stream\n', text.indexOf('/Subtype /Image')) + 'stream\n'.length;
  const length = Number(/\n7 0 obj\n(\d+)\nendobj/.exec(text)?.[1]);
  return unfilter(inflateSync(file.subarray(from, from + length)), widthDots * 3, heightDots);
};
