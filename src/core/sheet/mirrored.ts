/** Left and right exchanged, dot for dot: for film that is laid from behind and seen through from its bare side. */
import type { PageBox } from './page-spec.ts';

/** @param rows row-major RGB, 8 bit; whole rows of `rowBytes`. @returns a copy, each row from its last dot to its first. */
export const mirroredRows = (rows: Uint8Array, rowBytes: number): Uint8Array<ArrayBuffer> => {
  const out = new Uint8Array(rows.length);
  for (let start = 0; start < rows.length; start += rowBytes)
    for (let from = start, to = start + rowBytes - 3; to >= start; from += 3, to -= 3) {
      out[to] = rows[from]!;
      out[to + 1] = rows[from + 1]!;
      out[to + 2] = rows[from + 2]!;
    }
  return out;
};

/** @param width dots in a row. */
export const mirroredBox = ({ left, right, ...ends }: PageBox, width: number): PageBox => ({
  ...ends,
  left: width - right,
  right: width - left,
});
