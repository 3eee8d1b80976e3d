/** The pixels of a scan, and their rows across the ribs. */

/** Row-major, length widthPx × heightPx, any scale: only the pattern of light and dark counts. */
export interface ScanPixels {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly light: Float32Array;
}

/** Rows across the ribs, whichever way the ribs run. `read` fills `into`, of `length` values. */
export interface Rows {
  readonly length: number;
  readonly count: number;
  readonly read: (row: number, into: Float64Array) => void;
}

export const rowsOf = ({ widthPx, heightPx, light }: ScanPixels, upright: boolean): Rows =>
  upright
    ? {
        length: widthPx,
        count: heightPx,
        read: (row, into) => into.set(light.subarray(row * widthPx, (row + 1) * widthPx)),
      }
    : {
        length: heightPx,
        count: widthPx,
        read: (row, into) => {
          for (let i = 0; i < heightPx; i += 1) into[i] = light[i * widthPx + row]!;
        },
      };
