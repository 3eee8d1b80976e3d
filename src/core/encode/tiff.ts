/**
 * The TIFF writer: 8-bit RGB, sRGB; each band is a strip, each strip its own zlib stream. Section numbers are those
 * of TIFF 6.0 (1992); compression 8 is from its Supplement 2 (2002).
 *
 * The directory stands at the end, where the offsets of the strips are known. The header goes into the first sixteen
 * bytes and is written last: plain TIFF for files small enough, BigTIFF for others.
 *
 * Strips hold differences along the row (predictor 2). TIFF cannot subtract the row above, which is the similar one
 * under upright ribs. Measured on the three demo scenes, 41 megadots each, against no predictor: 5 to 25 % smaller
 * with upright ribs, 54 to 59 % with lying ones. Against the same sheets as PNG: 2.0 to 2.7 times as large with
 * upright ribs, 1.0 to 1.4 times with lying ones.
 */
import { joinBytes } from './bytes.ts';
import { differenceRows } from './filter.ts';
import type { OpenFile, RowWriter, SheetFile } from './row-writer.ts';
import { checkSheet } from './row-writer.ts';
import { deflateSegment, zlibStream } from './deflate/segment.ts';
import { srgbProfile } from './srgb-profile.ts';
import type { Entry, Layout } from './tiff-directory.ts';
import {
  BIG,
  CLASSIC,
  ascii,
  asciiText,
  directoryAt,
  long,
  offsets,
  rational,
  raw,
  short,
} from './tiff-directory.ts';
import { xmpPacket } from './xmp.ts';

/** Room for either header. */
const HEADER_BYTES = 16;
/** Largest offset of four bytes. */
const LARGEST_CLASSIC = 2 ** 32 - 1;

/** Offset and length of each strip, bytes. */
interface Strips {
  readonly offsets: readonly number[];
  readonly byteCounts: readonly number[];
}

export const tiffWriter: RowWriter = {
  rowsAbove: 0,
  wrapBand: ({ rows, rowBytes }) => {
    const segment = deflateSegment(differenceRows(rows, rowBytes), 'far');
    return { ...segment, bytes: zlibStream(segment) };
  },
  open: (file) => openTiff(file),
};

/**
 * @param largestClassic longest plain TIFF, bytes; a longer file becomes a BigTIFF.
 * @throws RangeError that names the field of `info` which TIFF cannot hold.
 */
export const openTiff = (file: SheetFile, largestClassic = LARGEST_CLASSIC): OpenFile => {
  checkSheet(file.info, LARGEST_CLASSIC);
  const strips = { offsets: [] as number[], byteCounts: [] as number[] };
  let at = HEADER_BYTES;
  return {
    head: () => new Uint8Array(HEADER_BYTES),
    took: ({ byteLength }) => {
      strips.offsets.push(at);
      strips.byteCounts.push(byteLength);
      at += byteLength;
    },
    tail: () => {
      // A directory begins at a word boundary (section 2).
      const gap = -at & 7;
      const make = (layout: Layout) =>
        directoryAt(at + gap, entriesOf(file, strips, layout), layout);
      const classic = at + gap + make(CLASSIC).length <= largestClassic;
      const layout = classic ? CLASSIC : BIG;
      return {
        bytes: joinBytes([new Uint8Array(gap), make(layout)]),
        patch: { at: 0, bytes: header(at + gap, layout) },
      };
    },
  };
};

/** Section 2, and the BigTIFF proposal: low byte first, magic number, offset of the directory. */
const header = (directory: number, layout: Layout) => {
  const bytes = new Uint8Array(HEADER_BYTES);
  const view = new DataView(bytes.buffer);
  bytes.set([0x49, 0x49]);
  view.setUint16(2, layout.magic, true);
  if (layout === BIG) {
    view.setUint16(4, 8, true);
    view.setBigUint64(8, BigInt(directory), true);
  } else view.setUint32(4, directory, true);
  return bytes;
};

/** Sorted by tag, as section 2 requires. */
const entriesOf = ({ info, rowsInBand }: SheetFile, strips: Strips, layout: Layout): Entry[] => [
  long(256, [info.width]), // ImageWidth
  long(257, [info.height]), // ImageLength
  short(258, [8, 8, 8]), // BitsPerSample
  short(259, [8]), // Compression: zlib
  short(262, [2]), // PhotometricInterpretation: RGB
  ...optional(269, info.title), // DocumentName
  ...optional(270, info.description), // ImageDescription
  offsets(273, strips.offsets, layout), // StripOffsets
  short(274, [1]), // Orientation: first row at the top
  short(277, [3]), // SamplesPerPixel
  long(278, [Math.min(rowsInBand, info.height)]), // RowsPerStrip
  long(279, strips.byteCounts), // StripByteCounts
  rational(282, info.horizontalDpi), // XResolution
  rational(283, info.verticalDpi), // YResolution
  short(284, [1]), // PlanarConfiguration: samples of a dot together
  short(296, [2]), // ResolutionUnit: the inch
  ...optional(305, info.software), // Software
  short(317, [2]), // Predictor: horizontal differencing, section 14
  raw(700, 1, xmpPacket(info)), // XMP: the same texts, any language
  raw(34675, 7, srgbProfile()), // ICC profile, ICC.1:2022 annex B.4
];

/** An ASCII field, or none for an empty text. */
const optional = (tag: number, value: string | undefined): Entry[] =>
  value === undefined || value === '' ? [] : [ascii(tag, asciiText(value))];
