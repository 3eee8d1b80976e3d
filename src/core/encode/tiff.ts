/**
 * The TIFF writer: 8-bit RGB, sRGB, a strip a band, each strip a zlib stream of its own. Section
 * numbers are those of TIFF 6.0 (1992); compression 8 is from its Supplement 2 (2002).
 *
 * The directory stands at the end, where the strips' places are known. The first sixteen bytes are
 * kept free for the header, which is written last: small enough files become plain TIFF, the others
 * BigTIFF.
 *
 * Strips are differenced along the row (predictor 2). TIFF has no way to look at the row above, which
 * under standing ribs is the one that resembles. Measured on the three demo scenes, 41 megadots each,
 * against no predictor: 5 to 25 % smaller where ribs stand, 54 to 59 % where they lie. Against the
 * same sheets as PNG: 2.0 to 2.7 times as large where ribs stand, 1.0 to 1.4 times where they lie.
 */
import { joinBytes } from './bytes.ts';
import { differenceRows } from './filter.ts';
import type { OpenFile, RowWriter, SheetFile } from './row-writer.ts';
import { deflateSegment, zlibEnd, zlibHead } from './deflate/segment.ts';
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
/** Largest place that a four-byte offset can name. */
const LARGEST_CLASSIC = 2 ** 32 - 1;

/** Where the strips stand, and how long each is. */
interface Strips {
  readonly offsets: readonly number[];
  readonly byteCounts: readonly number[];
}

export const tiffWriter: RowWriter = {
  rowsAbove: 0,
  wrapBand: ({ rows, rowBytes }) => {
    const segment = deflateSegment(differenceRows(rows, rowBytes), 'far');
    const bytes = joinBytes([zlibHead(), segment.bytes, zlibEnd(segment.adler32)]);
    return { ...segment, bytes };
  },
  open: (file) => openTiff(file),
};

/** @param largestClassic bytes beyond which the file becomes a BigTIFF. */
export const openTiff = (file: SheetFile, largestClassic = LARGEST_CLASSIC): OpenFile => {
  checkSize(file);
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
      // A directory begins at a whole word (section 2).
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

/** Section 2, and for BigTIFF its proposal: low byte first, the magic number, where the directory is. */
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

/** In the order of their tags, as section 2 asks. */
const entriesOf = ({ info, rowsInBand }: SheetFile, strips: Strips, layout: Layout): Entry[] => [
  long(256, [info.width]), // ImageWidth
  long(257, [info.height]), // ImageLength
  short(258, [8, 8, 8]), // BitsPerSample
  short(259, [8]), // Compression: zlib
  short(262, [2]), // PhotometricInterpretation: RGB
  ...optional(269, info.title), // DocumentName
  ...optional(270, info.description), // ImageDescription
  offsets(273, strips.offsets, layout), // StripOffsets
  short(274, [1]), // Orientation: as it is seen
  short(277, [3]), // SamplesPerPixel
  long(278, [Math.min(rowsInBand, info.height)]), // RowsPerStrip
  long(279, strips.byteCounts), // StripByteCounts
  rational(282, info.horizontalDpi), // XResolution
  rational(283, info.verticalDpi), // YResolution
  short(284, [1]), // PlanarConfiguration: the samples of a dot together
  short(296, [2]), // ResolutionUnit: the inch
  ...optional(305, info.software), // Software
  short(317, [2]), // Predictor: horizontal differencing, section 14
  raw(700, 1, xmpPacket(info)), // XMP: the same words in any language
  raw(34675, 7, srgbProfile()), // ICC profile, ICC.1:2022 annex B.4
];

/** An ASCII field where there is something to say. */
const optional = (tag: number, value: string | undefined): Entry[] =>
  value === undefined || value === '' ? [] : [ascii(tag, asciiText(value))];

const checkSize = ({ info }: SheetFile) => {
  for (const field of ['width', 'height'] as const)
    if (!(Number.isInteger(info[field]) && info[field] >= 1 && info[field] <= 2 ** 32 - 1))
      throw new RangeError(
        `${field}: expected a whole number from 1 to ${2 ** 32 - 1}, received ${info[field]}`,
      );
  for (const field of ['horizontalDpi', 'verticalDpi'] as const)
    if (!(info[field] > 0 && info[field] < 2 ** 32))
      throw new RangeError(`${field}: expected dpi above 0, received ${info[field]}`);
};
