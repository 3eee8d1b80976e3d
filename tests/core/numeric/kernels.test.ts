/** Each kernel against the few plain lines that it stands for, at sizes that no vector divides. */
import { describe, expect, test } from 'vitest';
import { kernels, layRooms, roomBytes } from '../../../src/core/numeric/kernels.ts';
import { SIZES, seeded, words } from './kernel-rooms.ts';

describe('rooms', () => {
  test('begin at whole vectors, do not overlap, and grow the memory as they must', () => {
    const sizes = [1, 70_001, 0, 3_000_017] as const;
    const rooms = layRooms(...sizes);
    let end = kernels().roomFrom();
    for (const [i, at] of rooms.entries()) {
      expect(at % 16).toBe(0);
      expect(at).toBeGreaterThanOrEqual(end);
      end = at + (sizes[i] ?? 0);
    }
    expect(kernels().memory.buffer.byteLength).toBeGreaterThanOrEqual(end);
    roomBytes(rooms[3], sizes[3]).fill(7);
    expect(roomBytes(rooms[3], sizes[3]).at(-1)).toBe(7);
  });

  test('of the same size take no more memory the second time', () => {
    layRooms(5_000_000);
    const before = kernels().memory.buffer.byteLength;
    layRooms(5_000_000);
    expect(kernels().memory.buffer.byteLength).toBe(before);
  });
});

test('weaveRow: every dot is the sum of its samples, each times its share', () => {
  for (const dots of SIZES) {
    const below = seeded(dots);
    const samples = Uint16Array.from({ length: 3 * 40 }, () => below(65536));
    const start = [0];
    const [chosen, shares]: [number[], number[]] = [[], []];
    for (let dot = 0; dot < dots; dot += 1) {
      const entries = 1 + below(4);
      const parts = Array.from({ length: entries }, () => 1 + below(1000));
      const whole = parts.reduce((sum, part) => sum + part, 0);
      for (const part of parts) {
        chosen.push(below(40));
        shares.push(part / whole);
      }
      start.push(chosen.length);
    }
    const [rows, starts, at, weight, into] = layRooms(
      1000 + samples.byteLength,
      4 * start.length,
      4 * chosen.length,
      8 * chosen.length,
      6 * dots,
    );
    const { buffer } = kernels().memory;
    words(rows + 1000, samples.length).set(samples);
    new Uint32Array(buffer, starts, start.length).set(start);
    new Uint32Array(buffer, at, chosen.length).set(chosen.map((sample) => rows + 6 * sample));
    new Float64Array(buffer, weight, shares.length).set(shares);
    kernels().weaveRow(1000, starts, at, weight, dots, into);
    const wanted = Array.from({ length: 3 * dots }, (_, i) => {
      const [dot, channel] = [Math.floor(i / 3), i % 3];
      let sum = 0.5;
      for (let e = start[dot] ?? 0; e < (start[dot + 1] ?? 0); e += 1)
        sum += (samples[3 * (chosen[e] ?? 0) + channel] ?? 0) * (shares[e] ?? 0);
      return Math.floor(sum);
    });
    expect([...words(into, 3 * dots)], `${dots} dots`).toEqual(wanted);
  }
});

test('blendRow: the code of the straight line between two rows, at both ends and between', () => {
  const codeOf = seeded(1);
  const table = Uint8Array.from({ length: 3 * 65536 }, () => codeOf(256));
  for (const dots of SIZES)
    for (const part of [0, 1, 5000, 8192, 16383, 16384]) {
      const below = seeded(dots * 16385 + part);
      const light = () =>
        Uint16Array.from({ length: 3 * dots }, () => [0, 65535, below(65536)][below(3)] ?? 0);
      const [above, beneath] = [light(), light()];
      const [upper, lower, codes, out] = layRooms(6 * dots, 6 * dots, table.length, 3 * dots);
      words(upper, 3 * dots).set(above);
      words(lower, 3 * dots).set(beneath);
      roomBytes(codes, table.length).set(table);
      const [red, green, blue] = [codes, codes + 65536, codes + 2 * 65536];
      kernels().blendRow(upper, lower, part, red, green, blue, dots, out);
      const wanted = Array.from(above, (value, i) => {
        const exact = value + (((beneath[i] ?? 0) - value) * part) / 16384;
        return table[(i % 3) * 65536 + Math.floor(exact + 0.5)];
      });
      expect([...roomBytes(out, 3 * dots)], `${dots} dots, part ${part}`).toEqual(wanted);
    }
});

test('mixRow: the sum of rows, each times its share', () => {
  for (const samples of SIZES)
    for (const count of [1, 2, 5]) {
      const below = seeded(samples * 10 + count);
      const light = Array.from({ length: count }, () =>
        Uint16Array.from({ length: samples }, () => [65535, below(65536)][below(2)] ?? 0),
      );
      const parts = light.map(() => 1 + below(1000));
      const share = parts.map((part) => part / parts.reduce((sum, other) => sum + other, 0));
      const [rows, shares, into, ...lines] = layRooms(
        4 * count,
        8 * count,
        2 * samples,
        ...light.map((line) => line.byteLength),
      );
      for (const [i, line] of light.entries()) words(lines[i] ?? 0, samples).set(line);
      new Uint32Array(kernels().memory.buffer, rows, count).set(lines);
      new Float64Array(kernels().memory.buffer, shares, count).set(share);
      kernels().mixRow(rows, shares, count, samples, into);
      const wanted = Array.from({ length: samples }, (_, i) =>
        Math.floor(light.reduce((sum, line, e) => sum + (line[i] ?? 0) * (share[e] ?? 0), 0.5)),
      );
      expect([...words(into, samples)], `${count} rows of ${samples}`).toEqual(wanted);
    }
});

test('stretchRow: the code of the straight line between two samples of a row', () => {
  const codeOf = seeded(2);
  const table = Uint8Array.from({ length: 3 * 65536 }, () => codeOf(256));
  for (const dots of SIZES)
    for (const samples of [1, 2, 9]) {
      const below = seeded(dots * 10 + samples);
      const light = Uint16Array.from({ length: 3 * samples }, () => below(65536));
      const places = Array.from({ length: dots }, () => below(Math.max(1, samples - 1)));
      const parts = places.map(() => [0, 16384, below(16385)][below(3)] ?? 0);
      const [line, steps, codes, out] = layRooms(6 * samples, 8 * dots, table.length, 3 * dots);
      words(line, light.length).set(light);
      const pairs = places.flatMap((place, dot) => [6 * place, parts[dot] ?? 0]);
      new Uint32Array(kernels().memory.buffer, steps, pairs.length).set(pairs);
      roomBytes(codes, table.length).set(table);
      const next = samples > 1 ? 1 : 0;
      const [red, green, blue] = [codes, codes + 65536, codes + 2 * 65536];
      kernels().stretchRow(line, steps, 6 * next, dots, red, green, blue, out);
      const wanted = places.flatMap((place, dot) =>
        [0, 1, 2].map((c) => {
          const left = light[3 * place + c] ?? NaN;
          const right = light[3 * (place + next) + c] ?? NaN;
          const exact = left + ((right - left) * (parts[dot] ?? 0)) / 16384;
          return table[c * 65536 + Math.floor(exact + 0.5)];
        }),
      );
      expect([...roomBytes(out, 3 * dots)], `${dots} dots of ${samples}`).toEqual(wanted);
    }
});

describe('filterRows', () => {
  /** PNG 3rd edition, 9.2 and 9.4, as written there. */
  const predictor = (kind: number, a: number, b: number, c: number): number => {
    if (kind !== 4) return [0, a, b][kind] ?? NaN;
    const p = a + b - c;
    const [pa, pb, pc] = [Math.abs(p - a), Math.abs(p - b), Math.abs(p - c)];
    if (pa <= pb && pa <= pc) return a;
    return pb <= pc ? b : c;
  };

  for (const kind of [0, 1, 2, 4])
    test(`type ${kind}: as the standard says, with a row above and without`, () => {
      for (const dots of SIZES)
        for (const [hasAbove, numbered] of [
          [0, 0],
          [1, 1],
          [0, 1],
        ] as const) {
          const rowBytes = 3 * dots;
          const count = 3;
          const below = seeded(kind * 1000 + dots);
          // Neighbours are often equal, so that the predictor has ties to break.
          const rows = Uint8Array.from(
            { length: (count + 1) * rowBytes },
            () => 250 * below(2) + below(4),
          );
          const [from, out] = layRooms(rows.length, count * (rowBytes + numbered));
          roomBytes(from, rows.length).set(rows);
          const first = from + rowBytes;
          kernels().filterRows(first, rowBytes, 3, count, hasAbove, kind, numbered, out);
          const wanted: number[] = [];
          for (let row = 1; row <= count; row += 1) {
            const here = row === 1 && hasAbove === 0 && kind !== 0 ? 1 : kind;
            if (numbered === 1) wanted.push(here);
            for (let x = 0; x < rowBytes; x += 1) {
              const byte = (up: number, left: number) =>
                x < left ? 0 : (rows[(row - up) * rowBytes + x - left] ?? NaN);
              const less = predictor(here, byte(0, 3), byte(1, 0), byte(1, 3));
              wanted.push((byte(0, 0) - less) & 255);
            }
          }
          expect([...roomBytes(out, wanted.length)], `${dots} dots`).toEqual(wanted);
        }
    });
});

describe('adler32', () => {
  /** RFC 1950, 9: both sums modulo 65521, the first begun at 1. */
  const plain = (bytes: Uint8Array): number => {
    let [a, b] = [1, 0];
    for (const byte of bytes) [a, b] = [(a + byte) % 65521, (b + a + byte) % 65521];
    return b * 65536 + a;
  };
  const sumOf = (bytes: Uint8Array): number => {
    const [at] = layRooms(bytes.length);
    roomBytes(at, bytes.length).set(bytes);
    return kernels().adler32(at, bytes.length, 1) >>> 0;
  };

  test('as the standard defines it, of any length', () => {
    const below = seeded(5);
    for (const length of [0, ...SIZES, 5439, 5440, 5441, 5456, 30_001]) {
      const bytes = Uint8Array.from({ length }, () => below(256));
      expect(sumOf(bytes), `${length} bytes`).toBe(plain(bytes));
    }
  });
  test('the largest bytes overflow nothing', () => {
    const bytes = new Uint8Array(100_003).fill(255);
    expect(sumOf(bytes)).toBe(plain(bytes));
  });
});

describe('likelyRib', () => {
  const ribOf = (bytes: Uint8Array): number => {
    const [at] = layRooms(bytes.length);
    roomBytes(at, bytes.length).set(bytes);
    return kernels().likelyRib(at, at + bytes.length, 256);
  };

  test('is the distance at which a pattern comes again, among other bytes too', () => {
    for (const dots of [2, 5, 12, 33, 85]) {
      const below = seeded(dots);
      const rib = Uint8Array.from({ length: 3 * dots }, () => below(256));
      const bytes = Uint8Array.from({ length: 40_000 }, (_, i) =>
        i % 1000 < 300 ? below(256) : (rib[i % rib.length] ?? 0),
      );
      expect(ribOf(bytes) % rib.length, `${dots} dots`).toBe(0);
    }
  });
});
