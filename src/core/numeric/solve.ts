/**
 * Solves a x = b by Gaussian elimination with pivoting; undefined where a is singular.
 * @param a row-major n × n; not changed.
 */
export const solve = (a: ArrayLike<number>, b: ArrayLike<number>): Float64Array | undefined => {
  const n = b.length;
  const m = Float64Array.from(a);
  const x = Float64Array.from(b);
  for (let column = 0; column < n; column += 1) {
    let pivot = column;
    for (let row = column + 1; row < n; row += 1)
      if (Math.abs(m[row * n + column]!) > Math.abs(m[pivot * n + column]!)) pivot = row;
    const lead = m[pivot * n + column]!;
    if (!(Math.abs(lead) > 1e-300)) return undefined;
    if (pivot !== column) {
      for (let k = 0; k < n; k += 1)
        [m[column * n + k], m[pivot * n + k]] = [m[pivot * n + k]!, m[column * n + k]!];
      [x[column], x[pivot]] = [x[pivot]!, x[column]!];
    }
    for (let row = column + 1; row < n; row += 1) {
      const times = m[row * n + column]! / lead;
      if (times === 0) continue;
      for (let k = column; k < n; k += 1) m[row * n + k]! -= times * m[column * n + k]!;
      x[row]! -= times * x[column]!;
    }
  }
  for (let row = n - 1; row >= 0; row -= 1) {
    let sum = x[row]!;
    for (let k = row + 1; k < n; k += 1) sum -= m[row * n + k]! * x[k]!;
    x[row] = sum / m[row * n + row]!;
  }
  return x.every(Number.isFinite) ? x : undefined;
};
