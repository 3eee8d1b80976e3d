/** The kernels of measured parallax, each against the few plain lines that it stands for. */
import { describe, expect, test } from 'vitest';
import {
  bytesOf,
  layPlaneRows,
  middles,
  pitchOf,
} from '../../../src/core/frames/parallax/laid-rows.ts';
import type { Plane } from '../../../src/core/frames/parallax/plane.ts';
import { laidWeights } from '../../../src/core/frames/parallax/window.ts';
import { kernels, layRooms, roomFloats, roomWords } from '../../../src/core/numeric/kernels.ts';
import { seeded } from './kernel-rooms.ts';

/** Seeded grey, smoothed a little so that what lies between pixels means something. */
const roughPlane = (width: number, height: number, seed: number): Plane => {
  const below = seeded(seed);
  const raw = Float32Array.from({ length: width * height }, () => below(1000) / 1000);
  const at = (x: number, y: number) =>
    raw[Math.min(height - 1, Math.max(0, y)) * width + Math.min(width - 1, Math.max(0, x))] ?? 0;
  const data = raw.map((_, i) => {
    const [x, y] = [i % width, Math.floor(i / width)];
    let sum = 0;
    for (let v = -1; v <= 1; v += 1) for (let u = -1; u <= 1; u += 1) sum += at(x + u, y + v) / 9;
    return sum;
  });
  return { width, height, data };
};

/** A plane's pixel; beyond the picture its edge. */
const pixelOf =
  ({ width, height, data }: Plane) =>
  (x: number, y: number): number =>
    data[Math.min(height - 1, Math.max(0, y)) * width + Math.min(width - 1, Math.max(0, x))] ?? NaN;

/** Catmull–Rom between the middle two of four, as Keys (1981) writes it for a = −1/2. */
const keys = (distance: number): number => {
  const d = Math.abs(distance);
  if (d >= 2) return 0;
  return d < 1 ? 1.5 * d ** 3 - 2.5 * d ** 2 + 1 : -0.5 * d ** 3 + 2.5 * d ** 2 - 4 * d + 2;
};

const between = (plane: Plane, x: number, y: number): number => {
  const pixel = pixelOf(plane);
  let sum = 0;
  for (let v = Math.floor(y) - 1; v <= Math.floor(y) + 2; v += 1)
    for (let u = Math.floor(x) - 1; u <= Math.floor(x) + 2; u += 1)
      sum += keys(x - u) * keys(y - v) * pixel(u, v);
  return sum;
};

type Reader = (x: number, y: number) => number;
/** Sum over a window of 15 × 15, weighted. */
const weighed = (of: Reader): number => {
  let sum = 0;
  for (let v = -7; v <= 7; v += 1)
    for (let u = -7; u <= 7; u += 1) sum += (laidWeights[(v + 7) * 16 + u + 7] ?? 0) * of(u, v);
  return sum;
};
const centred = (of: Reader): Reader => {
  const mean = weighed(of);
  return (u, v) => of(u, v) - mean;
};
const together = (a: Reader, b: Reader): number => weighed((u, v) => a(u, v) * b(u, v));
const FLOOR = (2 / 255) ** 2;

const layTwo = (from: Plane, to: Plane, places: number, entries: number) => {
  const span = { first: -20, last: from.height + 20 };
  const bytes = bytesOf(from.width, span);
  const [one, two, pictures, weights, start, list, out, scratch] = layRooms(
    bytes,
    bytes,
    32,
    laidWeights.byteLength,
    4 * (places + 1),
    8 * entries,
    16 * places,
    4096,
  );
  roomFloats(weights, laidWeights.length).set(laidWeights);
  roomWords(pictures, 8).set([
    layPlaneRows(from, from.data, span, one),
    layPlaneRows(to, to.data, span, two),
    pitchOf(from.width),
    ...middles(from.width),
    ...middles(from.height),
    weights,
  ]);
  return { pictures, start, list, out, scratch };
};

test('rows are laid with their edges repeated, beyond every side', () => {
  const plane = roughPlane(13, 5, 3);
  const span = { first: -2, last: 6 };
  const [room] = layRooms(bytesOf(13, span));
  const origin = layPlaneRows(plane, plane.data, span, room);
  const laid = roomFloats(room, bytesOf(13, span) / 4);
  const pixel = pixelOf(plane);
  for (let y = -2; y <= 6; y += 1)
    for (const x of [-24, -1, 0, 5, 12, 13, 36])
      expect(laid[(origin + y * pitchOf(13) + 4 * x - room) / 4], `${x}, ${y}`).toBe(pixel(x, y));
});

test('startsRow: twice what was found at the place and beside it, rounded, each once, and no motion', () => {
  const [columns, rows, places] = [5, 4, 11];
  const below = seeded(8);
  const across = Float32Array.from({ length: columns * rows }, () => (below(9) - 4) / 2 + 0.25);
  const along = Float32Array.from({ length: columns * rows }, () => (below(3) - 1) / 4);
  const [a, b, start, list] = layRooms(80, 80, 4 * (places + 1), 80 * places);
  roomFloats(a, 20).set(across);
  roomFloats(b, 20).set(along);
  for (const row of [0, 1, 3, 4]) {
    kernels().startsRow(a, b, columns, rows, row, places, start, list);
    const starts = roomWords(start, places + 1);
    const entries = roomWords(list, 2 * (starts[places] ?? 0));
    for (let place = 0; place < places; place += 1) {
      const wanted = new Set<string>();
      for (let y = row - 1; y <= row + 1; y += 1)
        for (let x = (place >> 1) - 1; x <= (place >> 1) + 1; x += 1)
          if (x >= 0 && y >= 0 && x < columns && y < rows) {
            const at = y * columns + x;
            const [dx, dy] = [Math.round(2 * (across[at] ?? 0)), Math.round(2 * (along[at] ?? 0))];
            wanted.add(`${dx + 0},${dy + 0}`.replaceAll('-0', '0'));
          }
      wanted.add('0,0');
      const got: string[] = [];
      for (let e = starts[place] ?? 0; e < (starts[place + 1] ?? 0); e += 1)
        got.push(`${entries[2 * e]},${entries[2 * e + 1]}`);
      expect(got, `row ${row}, place ${place}`).toEqual([...wanted]);
    }
  }
});

describe('matching rows of places', () => {
  const [width, height] = [45, 30];
  const from = roughPlane(width, height, 5);
  const [byX, byY] = [1.3, -0.4];
  const to: Plane = {
    width,
    height,
    data: from.data.map((_, i) => between(from, (i % width) - byX, Math.floor(i / width) - byY)),
  };
  const places = 5;
  const tried = [-30, 0, -1, -1, 0, 0, 2, 0, 1, 1, 60, 40];
  const layMatch = () => {
    const rooms = layTwo(from, to, places, (places * tried.length) / 2);
    const each = tried.length / 2;
    roomWords(rooms.start, places + 1).set(Array.from({ length: places + 1 }, (_, i) => each * i));
    for (let place = 0; place < places; place += 1)
      roomWords(rooms.list + 8 * each * place, 2 * each).set(tried);
    return rooms;
  };
  const likeness = (x: number, y: number, dx: number, dy: number): number => {
    const [p, q] = [pixelOf(from), pixelOf(to)];
    const a = centred((u, v) => p(x + u, y + v));
    const b = centred((u, v) => q(x + dx + u, y + dy + v));
    return together(a, b) / Math.sqrt(together(a, a) * Math.max(together(b, b), FLOOR));
  };

  test.each([4, 20, 28])('wholeRow: the most alike of its entries, row %i', (y) => {
    const { pictures, start, list, out, scratch } = layMatch();
    kernels().wholeRow(pictures, y, places, start, list, 0, out, scratch);
    const found = roomFloats(out, 4 * places);
    const own = pixelOf(from);
    for (let place = 0; place < places; place += 1) {
      const x = 8 * place + 4;
      let [best, most] = [0, -Infinity];
      for (let e = 0; e < tried.length; e += 2) {
        const alike = likeness(x, y, tried[e] ?? 0, tried[e + 1] ?? 0);
        if (alike > most) [best, most] = [e, alike];
      }
      expect([found[4 * place], found[4 * place + 1]], `place ${place}`).toEqual(
        tried.slice(best, best + 2),
      );
      const a = centred((u, v) => own(x + u, y + v));
      expect((found[4 * place + 2] ?? 0) / together(a, a)).toBeCloseTo(1, 5);
    }
  });

  test('wholeRow: climbs to the best pixel beside what was best', () => {
    const { pictures, start, list, out, scratch } = layMatch();
    kernels().wholeRow(pictures, 12, places, start, list, 3, out, scratch);
    // The picture has moved by (1.3, −0.4).
    expect([...roomFloats(out, 8)].slice(4, 6)).toEqual([1, 0]);
  });

  test('refineRow: ends where the first picture’s slopes see no more to move, and says how alike it is there', () => {
    const { pictures, start, list, out, scratch } = layMatch();
    const y = 12;
    kernels().wholeRow(pictures, y, places, start, list, 3, out, scratch);
    kernels().refineRow(pictures, y, places, out, scratch);
    const own = pixelOf(from);
    for (let place = 1; place < places - 1; place += 1) {
      const x = 8 * place + 4;
      const [dx = NaN, dy = NaN, alike, unsure] = roomFloats(out + 16 * place, 4);
      expect(dx).toBeCloseTo(byX, 1);
      expect(dy).toBeCloseTo(byY, 1);
      const a = centred((u, v) => own(x + u, y + v));
      const b = centred((u, v) => between(to, x + dx + u, y + dy + v));
      const [aa, bb, ab] = [together(a, a), together(b, b), together(a, b)];
      expect(alike).toBeCloseTo(ab / Math.sqrt(aa * bb), 3);
      const left = (u: number, v: number) => (own(x + u + 1, y + v) - own(x + u - 1, y + v)) / 2;
      const up = (u: number, v: number) => (own(x + u, y + v + 1) - own(x + u, y + v - 1)) / 2;
      const miss: Reader = (u, v) => a(u, v) - (ab / bb) * b(u, v);
      const [xx, xy, yy] = [together(left, left), together(left, up), together(up, up)];
      const stiff = yy + 0.01 * xx;
      const move =
        (stiff * together(miss, left) - xy * together(miss, up)) / (xx * stiff - xy ** 2);
      expect(Math.abs(move)).toBeLessThan(0.005);
      const noise = Math.max(Math.sqrt(together(miss, miss)), 0.5 / 255);
      expect((unsure ?? 0) / (noise / Math.sqrt(xx - xy ** 2 / stiff) / 7)).toBeCloseTo(1, 1);
    }
  });

  test('a window of mere noise keeps its first entry and is not believed', () => {
    const flat = { width, height, data: from.data.map((value) => 0.5 + 0.002 * value) };
    const { pictures, start, list, out, scratch } = layTwo(flat, to, 1, 2);
    roomWords(start, 2).set([0, 2]);
    roomWords(list, 4).set([3, 1, 0, 0]);
    kernels().wholeRow(pictures, 12, 1, start, list, 3, out, scratch);
    kernels().refineRow(pictures, 12, 1, out, scratch);
    expect([...roomFloats(out, 4)]).toEqual([3, 1, 0, Infinity]);
  });
});
