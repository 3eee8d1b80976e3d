/** Numbers that are the same in every run. */

export interface Random {
  /** Whole number from 0 to `below` − 1. */
  readonly below: (below: number) => number;
  readonly pick: <T>(from: ArrayLike<T>) => T;
}

/** Mulberry32, public domain, by Tommy Ettinger: from memory. */
export const randomOf = (seed: number): Random => {
  let state = seed >>> 0;
  const next = (): number => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), state | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32;
  };
  const below = (limit: number) => Math.floor(next() * limit);
  return { below, pick: (from) => from[below(from.length)] as (typeof from)[number] };
};
