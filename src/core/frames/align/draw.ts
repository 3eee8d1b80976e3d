/** Numbers 0 … 1 that look drawn by lot, the same each time (Marsaglia, Xorshift RNGs, J. Stat. Software 8, 2003). */
export const drawer = (seed: number): (() => number) => {
  let state = seed | 0 || 1;
  return () => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return (state >>> 0) / 2 ** 32;
  };
};
