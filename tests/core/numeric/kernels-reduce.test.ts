/** The kernels that reduce a frame, each against the few plain lines that it stands for. */
import { expect, test } from 'vitest';
import { kernels, layRooms, roomBytes } from '../../../src/core/numeric/kernels.ts';
import { SIZES, floats, seeded, words } from './kernel-rooms.ts';

test('lightRow: the light of every code, with a fourth channel and without', () => {
  for (const width of SIZES)
    for (const channels of [3, 4]) {
      const below = seeded(width * 10 + channels);
      const bytes = Uint8Array.from({ length: width * channels }, () => below(256));
      const light = Float32Array.from({ length: 256 }, () => below(65536) / 7);
      const [codes, table, line] = layRooms(bytes.length, 1024, 12 * width);
      roomBytes(codes, bytes.length).set(bytes);
      floats(table, 256).set(light);
      kernels().lightRow(codes, channels, table, width, line);
      const wanted = Array.from({ length: 3 * width }, (_, i) => {
        const pixel = Math.floor(i / 3);
        return light[bytes[pixel * channels + (i % 3)] ?? NaN];
      });
      expect([...floats(line, 3 * width)], `${width} of ${channels}`).toEqual(wanted);
    }
});

test('averageRow: pixels times their shares, and white where there is paper', () => {
  for (const samples of SIZES) {
    const below = seeded(samples);
    const light = Float32Array.from({ length: 3 * 50 }, () => below(65536) + below(64) / 64);
    const start = [0];
    const [chosen, shares]: [number[], number[]] = [[], []];
    for (let i = 0; i < samples; i += 1) {
      for (let left = below(5); left > 0; left -= 1) {
        chosen.push(below(50));
        shares.push(Math.fround(below(1000) / 4096));
      }
      start.push(chosen.length);
    }
    const beside = Array.from({ length: samples }, () => Math.fround(below(100) / 1000));
    const [line, starts, source, weight, paper, into] = layRooms(
      4 * light.length,
      4 * start.length,
      4 * chosen.length,
      4 * chosen.length,
      4 * samples,
      12 * samples,
    );
    const { buffer } = kernels().memory;
    floats(line, light.length).set(light);
    new Uint32Array(buffer, starts, start.length).set(start);
    new Uint32Array(buffer, source, chosen.length).set(chosen);
    floats(weight, shares.length).set(shares);
    floats(paper, samples).set(beside);
    kernels().averageRow(line, starts, source, weight, paper, samples, into);
    const wanted = Array.from({ length: 3 * samples }, (_, i) => {
      const [sample, channel] = [Math.floor(i / 3), i % 3];
      let sum = (beside[sample] ?? NaN) * 65535;
      for (let e = start[sample] ?? 0; e < (start[sample + 1] ?? 0); e += 1)
        sum += (light[3 * (chosen[e] ?? 0) + channel] ?? NaN) * (shares[e] ?? NaN);
      return Math.fround(sum);
    });
    expect([...floats(into, 3 * samples)], `${samples} samples`).toEqual(wanted);
  }
});

test('addRow and roundRow: a sum of rows, kept in 32 bits, then whole numbers up to white', () => {
  for (const samples of SIZES) {
    const below = seeded(samples);
    const rows = [0.3, 1 / 3, 0.62].map((share) => ({
      share,
      light: Float32Array.from({ length: samples }, () => below(65536) + below(64) / 64),
    }));
    // Just under a half: what is added must not round up on its way.
    const begun = Float32Array.from({ length: samples }, (_, i) =>
      i % 3 === 0 ? 0.49999997 : below(3000),
    );
    const [row, sum, rounded] = layRooms(4 * samples, 4 * samples, 2 * samples);
    floats(sum, samples).set(begun);
    const wanted = Array.from(begun);
    const round = () => {
      kernels().roundRow(sum, samples, rounded);
      expect([...words(rounded, samples)], `${samples} samples`).toEqual(
        wanted.map((value) => Math.min(65535, Math.floor(value + 0.5))),
      );
    };
    round();
    for (const { share, light } of rows) {
      floats(row, samples).set(light);
      kernels().addRow(row, share, samples, sum);
      for (const [i, value] of light.entries())
        wanted[i] = Math.fround((wanted[i] ?? NaN) + value * share);
      expect([...floats(sum, samples)], `${samples} samples`).toEqual(wanted);
    }
    round();
  }
});

test('softenRow: the mean over the kernel of each width, narrower neighbours counting for less', () => {
  for (const samples of SIZES) {
    const below = seeded(samples);
    const light = Uint16Array.from({ length: 3 * samples }, () => below(65536));
    const widths = Uint16Array.from({ length: samples }, () => below(4));
    const kept = [[1], [0.5, 0.25], [0.4, 0.2, 0.1], [0.2, 0.15, 0.1, 0.08, 0.07]];
    const [source, widthsAt, table, halves, into] = layRooms(
      6 * samples,
      2 * samples,
      8 * kept.length,
      8 * kept.flat().length,
      6 * samples,
    );
    const { buffer } = kernels().memory;
    words(source, light.length).set(light);
    words(widthsAt, samples).set(widths);
    new Float64Array(buffer, halves, kept.flat().length).set(kept.flat());
    const where = kept.flatMap((half, i) => [
      halves + 8 * kept.slice(0, i).flat().length,
      half.length - 1,
    ]);
    new Uint32Array(buffer, table, where.length).set(where);
    kernels().softenRow(source, widthsAt, table, samples, into);
    const wanted = Array.from(light, (value, i) => {
      const [x, channel] = [Math.floor(i / 3), i % 3];
      const own = widths[x] ?? 0;
      if (own === 0) return value;
      let [sum, whole] = [0, 0];
      for (const [at, beside] of widths.entries()) {
        const weight = (kept[own]?.[Math.abs(at - x)] ?? 0) * Math.min(1, beside / own);
        sum += weight * (light[3 * at + channel] ?? NaN);
        whole += weight;
      }
      return Math.floor(sum / whole + 0.5);
    });
    expect([...words(into, light.length)], `${samples} samples`).toEqual(wanted);
  }
});
