/**
 * A first walk through a TIFF's directories (TIFF 6.0, section 2; BigTIFF as libtiff describes it): every
 * list of values must lie inside the file before the reading library makes room for it, and the chain of
 * pages must come to an end.
 */
import { ascii } from './bytes.ts';
import { damaged } from './image.ts';
import { checkProfileSize } from './profile-size.ts';

/** Bytes a value, by field type. Types that are not here are passed over. */
const VALUE_BYTES: Readonly<Record<number, number>> = {
  1: 1,
  2: 1,
  3: 2,
  4: 4,
  5: 8,
  6: 1,
  7: 1,
  8: 2,
  9: 4,
  10: 8,
  11: 4,
  12: 8,
  13: 4,
  16: 8,
  17: 8,
  18: 8,
};

/** The colour profile: ICC.1:2022, annex B.4. */
const ICC_TAG = 34675;

const PAGES_AT_MOST = 1000;
const FIELDS_AT_MOST = 4096;

/** How classic and Big TIFF differ. */
interface Layout {
  readonly first: number;
  readonly countBytes: 2 | 8;
  readonly fieldBytes: 12 | 20;
  readonly placeBytes: 4 | 8;
}
const CLASSIC: Layout = { first: 4, countBytes: 2, fieldBytes: 12, placeBytes: 4 };
const BIG: Layout = { first: 8, countBytes: 8, fieldBytes: 20, placeBytes: 8 };

const broken = (name: string) =>
  damaged(name, 'the TIFF’s list of contents points outside the file');

/** @throws StudioError `damaged`, or `too-large` for a profile beyond all size */
export const checkTiffDirectories = (file: Uint8Array, name: string): void => {
  const view = new DataView(file.buffer, file.byteOffset, file.length);
  const little = ascii(file, 0, 2) === 'II';
  const number = (at: number, bytes: 2 | 4 | 8): number => {
    if (at + bytes > file.length) throw broken(name);
    if (bytes === 2) return view.getUint16(at, little);
    if (bytes === 4) return view.getUint32(at, little);
    // Beyond 2⁵³ it rounds, and lies outside any file all the same.
    return Number(view.getBigUint64(at, little));
  };
  const layout = number(2, 2) === 43 ? BIG : CLASSIC;
  const { countBytes, fieldBytes, placeBytes } = layout;
  const seen = new Set<number>();
  let at = number(layout.first, placeBytes);
  while (at !== 0) {
    if (seen.has(at) || seen.size >= PAGES_AT_MOST)
      throw damaged(name, 'the TIFF’s pages lead back to each other without end');
    seen.add(at);
    const fields = number(at, countBytes);
    const end = at + countBytes + fields * fieldBytes;
    if (fields === 0 || fields > FIELDS_AT_MOST || end > file.length) throw broken(name);
    for (let field = at + countBytes; field < end; field += fieldBytes) {
      const values = number(field + 4, placeBytes);
      const bytes = values * (VALUE_BYTES[number(field + 2, 2)] ?? 0);
      if (number(field, 2) === ICC_TAG) checkProfileSize(bytes, name);
      const place = bytes <= placeBytes ? 0 : number(field + 4 + placeBytes, placeBytes);
      if (place + bytes > file.length) throw broken(name);
    }
    at = number(end, placeBytes);
  }
  if (seen.size === 0) throw broken(name);
};
