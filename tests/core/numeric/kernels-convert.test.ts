/** Conversion through a table, and filters for one and four channels, against the plain lines that they stand for. */
import { describe, expect, test } from 'vitest';
import { convertDots, mostInk } from '../../../src/core/colour/icc/device-table.ts';
import { kernels, layRooms, roomBytes } from '../../../src/core/numeric/kernels.ts';
import { SIZES, seeded } from './kernel-rooms.ts';

const EDGE = 6;
const STEP = 51;

/** Tetrahedral interpolation as Kasson, Nin, Plouffe and Hafner describe it (1995): walk to the far corner by size. */
const plain = (codes: readonly number[], node: (r: number, g: number, b: number) => number) => {
  const at = codes.map((code) => Math.min(EDGE - 2, Math.floor(code / STEP)));
  const share = codes.map((code, axis) => (code - (at[axis] ?? 0) * STEP) / STEP);
  const order = [0, 1, 2].sort((a, b) => (share[b] ?? 0) - (share[a] ?? 0));
  const corner = [...at];
  const value = () => node(corner[0] ?? 0, corner[1] ?? 0, corner[2] ?? 0);
  let sum = value();
  for (const axis of order) {
    const before = value();
    corner[axis] = (corner[axis] ?? 0) + 1;
    sum += (share[axis] ?? 0) * (value() - before);
  }
  return Math.round(sum / 257);
};

const tableOf = (channels: 1 | 3 | 4, value: (place: number, channel: number) => number) => {
  const nodes = new Uint16Array(EDGE ** 3 * 4);
  for (let place = 0; place < EDGE ** 3; place += 1)
    for (let c = 0; c < channels; c += 1) nodes[place * 4 + c] = value(place, c);
  return { channels, nodes };
};

describe('convertDots', () => {
  for (const channels of [1, 3, 4] as const)
    test(`${channels} channels, at codes that tie and at the ends`, () => {
      const below = seeded(channels);
      const table = tableOf(channels, () => below(65536));
      for (const dots of SIZES) {
        const codes = Uint8Array.from({ length: dots * 3 }, () =>
          below(3) === 0 ? 51 * below(6) : below(4) === 0 ? 17 * below(16) : below(256),
        );
        const found = convertDots(codes, table);
        const wanted: number[] = [];
        for (let dot = 0; dot < dots; dot += 1)
          for (let c = 0; c < channels; c += 1)
            wanted.push(
              plain(
                [...codes.subarray(dot * 3, dot * 3 + 3)],
                (r, g, b) => table.nodes[((r * EDGE + g) * EDGE + b) * 4 + c] ?? NaN,
              ),
            );
        expect([...found], `${dots} dots`).toEqual(wanted);
      }
    });

  test('a table whose nodes are the codes themselves leaves every code as it is', () => {
    const place = (node: number, axis: number) => Math.floor(node / EDGE ** (2 - axis)) % EDGE;
    const table = tableOf(3, (node, axis) => place(node, axis) * STEP * 257);
    const codes = Uint8Array.from({ length: 3 * 65536 }, (_, i) =>
      i % 3 === 0 ? (i / 3) >> 8 : i % 3 === 1 ? Math.floor(i / 3) & 255 : (i * 7) & 255,
    );
    expect(convertDots(codes, table)).toEqual(codes);
  });

  test('the most ink is that of the heaviest node', () => {
    const table = tableOf(4, (node) => (node === 40 ? 60000 : 10000));
    expect(mostInk(table)).toBeCloseTo(240000 / 65535, 6);
  });

  test('a table of no edge that divides the codes is refused', () => {
    const table = { channels: 3 as const, nodes: new Uint16Array(5 ** 3 * 4) };
    expect(() => convertDots(new Uint8Array(3), table)).toThrow(/nodes/);
  });
});

/** PNG 3rd edition, 9.2 and 9.4. */
const predicted = (kind: number, left: number, up: number, corner: number): number => {
  if (kind !== 4) return [0, left, up][kind] ?? NaN;
  const near = [left, up, corner].map((one) => Math.abs(left + up - corner - one));
  const [a = 0, b = 0, c = 0] = near;
  return a <= b && a <= c ? left : b <= c ? up : corner;
};

test('filterRows: grey looks one byte to the left, CMYK four', () => {
  for (const pixel of [1, 4])
    for (const kind of [1, 2, 4])
      for (const dots of SIZES) {
        const rowBytes = pixel * dots;
        const below = seeded(kind * 1000 + dots);
        const rows = Uint8Array.from({ length: 3 * rowBytes }, () => 250 * below(2) + below(4));
        const [from, out] = layRooms(rows.length, 2 * rowBytes);
        roomBytes(from, rows.length).set(rows);
        kernels().filterRows(from + rowBytes, rowBytes, pixel, 2, 1, kind, 0, out);
        const wanted: number[] = [];
        for (let row = 1; row < 3; row += 1)
          for (let x = 0; x < rowBytes; x += 1) {
            const byte = (above: number, left: number) =>
              x < left ? 0 : (rows[(row - above) * rowBytes + x - left] ?? NaN);
            const less = predicted(kind, byte(0, pixel), byte(1, 0), byte(1, pixel));
            wanted.push((byte(0, 0) - less) & 255);
          }
        expect([...roomBytes(out, wanted.length)], `${pixel}, ${kind}, ${dots}`).toEqual(wanted);
      }
});
