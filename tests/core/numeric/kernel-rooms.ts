/** What the tests of kernels share: numbers that are the same every time, and views of the kernels' memory. */
import { kernels } from '../../../src/core/numeric/kernels.ts';

/** Numbers of a linear congruential generator (Numerical Recipes, from memory), the upper 16 bits. */
export const seeded = (seed: number) => {
  let state = seed;
  return (below: number): number => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return Math.floor(((state >>> 16) * below) / 65536);
  };
};

export const words = (at: number, length: number) =>
  new Uint16Array(kernels().memory.buffer, at, length);
export const floats = (at: number, length: number) =>
  new Float32Array(kernels().memory.buffer, at, length);

/** No vector divides most of them. */
export const SIZES = [1, 2, 5, 7, 8, 11, 13, 16, 31, 57, 101];
