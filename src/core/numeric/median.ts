/** The middle value, or the mean of the two in the middle; NaN for none. */
export const medianOf = (values: readonly number[]): number => {
  if (values.length === 0) return NaN;
  const sorted = Float64Array.from(values).sort();
  const middle = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[middle]! : (sorted[middle - 1]! + sorted[middle]!) / 2;
};

/** The middle value, or the larger of the two in the middle; 0 for none. */
export const upperMedian = (values: ArrayLike<number>): number => {
  const sorted = Float64Array.from(values).sort();
  return sorted[sorted.length >> 1] ?? 0;
};
