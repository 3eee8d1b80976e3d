/** The middle of them, of two in the middle the larger; 0 of none. */
export const upperMedian = (values: ArrayLike<number>): number => {
  const sorted = Float64Array.from(values).sort();
  return sorted[sorted.length >> 1] ?? 0;
};
