/** Puts a sheet's file together from any pixels, as the page and its workers do. */
import type { OpenFile, RowWriter, SheetInfo } from '../../../src/core/encode/row-writer.ts';
import { channelsOf } from '../../../src/core/encode/row-writer.ts';
import type { Ribs } from '../../../src/core/weave/sheet-spec.ts';

/** Row-major dots that repeat nowhere: a dot out of place shows. */
export const scrambled = (width: number, height: number, seed = 1, channels = 3): Uint8Array => {
  let state = seed;
  return Uint8Array.from({ length: width * height * channels }, () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state >>> 24;
  });
};

export interface Plan {
  readonly info: SheetInfo;
  readonly rowsInBand: number;
  readonly ribs?: Ribs;
}

/** @param open in place of the writer's own, for its rarer ways. */
export const fileOf = (
  writer: RowWriter,
  pixels: Uint8Array,
  { info, rowsInBand, ribs = 'upright' }: Plan,
  open: RowWriter['open'] = (file) => writer.open(file),
): Buffer => {
  const file: OpenFile = open({ info, rowsInBand });
  const channels = channelsOf(info);
  const rowBytes = info.width * channels;
  const parts: Uint8Array[] = [file.head()];
  for (let row = 0; row < info.height; row += rowsInBand) {
    const end = Math.min(info.height, row + rowsInBand);
    const band = writer.wrapBand({
      rows: pixels.subarray(row * rowBytes, end * rowBytes),
      rowBytes,
      channels,
      above:
        row > 0 && writer.rowsAbove === 1
          ? pixels.subarray((row - 1) * rowBytes, row * rowBytes)
          : null,
      ribs,
    });
    file.took({ ...band, byteLength: band.bytes.length });
    parts.push(band.bytes);
  }
  const { bytes, patch } = file.tail();
  const whole = Buffer.concat([...parts, bytes]);
  if (patch !== undefined) whole.set(patch.bytes, patch.at);
  return whole;
};
