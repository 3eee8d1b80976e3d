/** Pictures and depth maps by formula, linear light in 16 bits. */
import type { ReducedFrame } from '../../../src/core/weave/reduce.ts';

export type Light = (x: number, y: number) => readonly [number, number, number];
export const pictureOf = (columns: number, rows: number, light: Light): ReducedFrame => {
  const pixels = new Uint16Array(3 * columns * rows);
  for (let y = 0; y < rows; y += 1)
    for (let x = 0; x < columns; x += 1) pixels.set(light(x, y), 3 * (y * columns + x));
  return { columns, rows, pixels };
};
export const mapOf = (columns: number, rows: number, part: (x: number, y: number) => number) =>
  Float32Array.from({ length: columns * rows }, (_, i) =>
    part(i % columns, Math.floor(i / columns)),
  );
/** Waves long enough for any decent interpolation, whole range of light. */
export const waves: Light = (x, y) => [
  32768 + 20000 * Math.sin((2 * Math.PI * x) / 17),
  32768 + 20000 * Math.sin((2 * Math.PI * (x + y)) / 23),
  32768 + 20000 * Math.cos((2 * Math.PI * x) / 29),
];
export const noise: Light = (x, y) => [
  (x * 7919 + y * 104729) % 65536,
  (x * 15485863 + y * 32452843) % 65536,
  (x * 49979687 + y * 67867967) % 65536,
];
