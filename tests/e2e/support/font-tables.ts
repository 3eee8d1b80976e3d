/**
 * An independent reader of a typeface's measures: WOFF2 (W3C, "WOFF File Format 2.0", sections 4.1 and 5) around the
 * tables `head` and `OS/2` of ISO/IEC 14496-22.
 */
import { brotliDecompressSync } from 'node:zlib';

/** Tags that a table directory names by number (WOFF2, section 4.1.1): the first 8 are enough here. */
const KNOWN = ['cmap', 'head', 'hhea', 'hmtx', 'maxp', 'name', 'OS/2', 'post'];
const [GLYF, LOCA] = [10, 11];

/** Tables by tag, for those of `KNOWN`. */
const tablesOf = (file: Buffer): Map<string, Buffer> => {
  if (file.toString('latin1', 0, 4) !== 'wOF2') throw new Error('expected a WOFF2 file');
  const count = file.readUInt16BE(12);
  const packed = file.readUInt32BE(20);
  let at = 48;
  const base128 = (): number => {
    for (let value = 0; ;) {
      const byte = file.readUInt8(at++);
      value = value * 128 + (byte & 127);
      if (byte < 128) return value;
    }
  };
  const entries = Array.from({ length: count }, () => {
    const flags = file.readUInt8(at++);
    const number = flags & 63;
    if (number === 63) at += 4;
    const version = flags >> 6;
    const length = base128();
    const isTransformed = number === GLYF || number === LOCA ? version !== 3 : version !== 0;
    return { tag: KNOWN[number] ?? '', length: isTransformed ? base128() : length };
  });
  const data = brotliDecompressSync(file.subarray(at, at + packed));
  let start = 0;
  return new Map(
    entries.map(({ tag, length }) => [tag, data.subarray(start, (start += length))] as const),
  );
};

/** Of an em. */
export const capHeightOf = (file: Buffer): number => {
  const tables = tablesOf(file);
  const [head, os2] = [tables.get('head'), tables.get('OS/2')];
  if (head === undefined || os2 === undefined) throw new Error('expected tables head and OS/2');
  return os2.readInt16BE(88) / head.readUInt16BE(18);
};
