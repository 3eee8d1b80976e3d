/**
 * The PNG writer: 8-bit sRGB, or a printer’s RGB or grey with its profile, written band by band. Section numbers are those of W3C PNG, third edition (2025).
 *
 * A file is `pngHead`, one `pngBand` for each band in order, then `pngTail`.
 */
import { MM_PER_INCH } from '../units/units.ts';
import { joinBytes, plainText, uint32be, utf8 } from './bytes.ts';
import { adler32, combineAdler32, crc32 } from './checksum.ts';
import type { OpenFile, RowWriter, SheetColour, SheetFile, SheetInfo } from './row-writer.ts';
import { checkSheet } from './row-writer.ts';
import type { Segment } from './deflate/segment.ts';
import { filteredSegment, zlibEnd, zlibHead } from './deflate/segment.ts';

/** Largest four-byte unsigned integer of PNG (7.1). */
const PNG_INTEGER_MAX = 2 ** 31 - 1;

/**
 * Everything before the first band, and the start of the zlib stream.
 * @throws RangeError that names the field and what was received.
 */
export const pngHead = (info: SheetInfo): Uint8Array<ArrayBuffer> => {
  checkSheet(info, PNG_INTEGER_MAX);
  if (info.colour?.space === 'CMYK')
    throw new RangeError('colour: expected grey or RGB, received CMYK, which PNG cannot hold');
  return joinBytes([
    signature,
    ihdr(info.width, info.height, info.colour?.space === 'GRAY' ? 0 : 2),
    ...colourChunks(info),
    phys(
      dotsPerMetre('horizontalDpi', info.horizontalDpi),
      dotsPerMetre('verticalDpi', info.verticalDpi),
    ),
    ...text('Title', info.title),
    ...text('Description', info.description),
    ...text('Software', info.software),
    idat(zlibHead()),
  ]);
};

/** One band of filtered rows, deflated, as one whole IDAT chunk. */
export const pngBand = (segment: Segment): Uint8Array<ArrayBuffer> => idat(segment.bytes);

/** Everything after the last band. @param adler Adler-32 of all filtered rows, combined in band order. */
export const pngTail = (adler: number): Uint8Array<ArrayBuffer> =>
  joinBytes([idat(zlibEnd(adler)), iend()]);

export const pngWriter: RowWriter = {
  rowsAbove: 1,
  bandStep: () => 1,
  wrapBand: (band) => {
    const segment = filteredSegment(band);
    return { ...segment, bytes: pngBand(segment) };
  },
  open: ({ info }: SheetFile): OpenFile => {
    const head = pngHead(info);
    let adler = 1;
    return {
      head: () => head,
      took: (band) => {
        adler = combineAdler32(adler, band.adler32, band.rawLength);
      },
      tail: () => ({ bytes: pngTail(adler) }),
    };
  },
};

/** Nearest whole number of dots per metre: 11811 for 300 dpi. */
export const dotsPerMetre = (field: string, dpi: number): number => {
  const dots = Math.round((dpi * 1000) / MM_PER_INCH);
  if (!(dots >= 1 && dots <= PNG_INTEGER_MAX))
    throw new RangeError(`${field}: expected dpi above 0, received ${dpi}`);
  return dots;
};

/** 5.2 PNG signature. */
export const signature = Uint8Array.of(0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a);

/** 11.2.1 IHDR: 8 bits a sample, no interlace; colour type 0 (greyscale) or 2 (truecolour). */
export const ihdr = (width: number, height: number, colourType: 0 | 2) =>
  chunk('IHDR', [...uint32be(width), ...uint32be(height), 8, colourType, 0, 0, 0]);

/** What the codes mean. */
const colourChunks = ({ colour }: SheetInfo) =>
  colour === undefined ? [cicp(), srgb(), gama(), chrm()] : [iccp(colour)];

/**
 * 11.3.2.3 iCCP: a name in Latin letters, 1 to 79 of them; the method of compression; the profile as a zlib stream. Its
 * blocks are stored (RFC 1951, 3.2.4): beside the sheet a profile is small, and the page has no kernels to deflate it.
 */
const iccp = ({ name, profile }: SheetColour) => {
  const letters = name
    .replace(/[^\x20-\x7e\xa1-\xff]/g, '?')
    .replace(/ +/g, ' ')
    .slice(0, 79)
    .trim();
  const keyword = Array.from(letters === '' ? 'profile' : letters, (one) => one.charCodeAt(0));
  const blocks: Uint8Array[] = [];
  for (let at = 0; at < profile.length; at += STORED_MOST) {
    const part = profile.subarray(at, at + STORED_MOST);
    const [low, high] = [part.length & 255, part.length >> 8];
    const last = at + part.length === profile.length ? 1 : 0;
    blocks.push(Uint8Array.of(last, low, high, low ^ 255, high ^ 255), part);
  }
  return chunk(
    'iCCP',
    joinBytes([
      Uint8Array.from([...keyword, 0, 0]),
      zlibHead(),
      ...blocks,
      Uint8Array.from(uint32be(adler32(profile))),
    ]),
  );
};

/** Bytes of a stored block. */
const STORED_MOST = 65535;

/** 11.3.2.6 cICP: BT.709 primaries, sRGB curve, RGB, full range: the section’s own sRGB example. */
const cicp = () => chunk('cICP', [1, 13, 0, 1]);

/** 11.3.2.5 sRGB, for decoders without cICP. Rendering intent 0, perceptual. */
const srgb = () => chunk('sRGB', [0]);

/** 11.3.2.2 gAMA, for decoders without either; 11.3.2.5 fixes the value. */
const gama = () => chunk('gAMA', uint32be(45455));

/** 11.3.2.1 cHRM, likewise: white, red, green, blue, x then y, × 100000. */
const chrm = () =>
  chunk('cHRM', [31270, 32900, 64000, 33000, 30000, 60000, 15000, 6000].flatMap(uint32be));

/** 11.3.4.3 pHYs: pixels per unit along x and y; unit 1 is the metre. */
const phys = (x: number, y: number) => chunk('pHYs', [...uint32be(x), ...uint32be(y), 1]);

/** 11.3.3.4 iTXt: uncompressed UTF-8, no language, no translated keyword. No chunk for no text. */
const text = (keyword: string, value: string | undefined): Uint8Array<ArrayBuffer>[] =>
  value === undefined || value === ''
    ? []
    : [chunk('iTXt', [...utf8(keyword), 0, 0, 0, 0, 0, ...utf8(plainText(value))])];

/** 11.2.3 IDAT: a piece of the zlib stream. */
export const idat = (data: Uint8Array) => chunk('IDAT', data);

/** 11.2.4 IEND. */
export const iend = () => chunk('IEND', []);

/** 5.3 Chunk layout: length, type, data, CRC of type and data. */
const chunk = (type: string, data: ArrayLike<number>): Uint8Array<ArrayBuffer> => {
  if (data.length > PNG_INTEGER_MAX)
    throw new RangeError(
      `${type}: expected at most ${PNG_INTEGER_MAX} bytes, received ${data.length}`,
    );
  const bytes = new Uint8Array(data.length + 12);
  bytes.set(uint32be(data.length), 0);
  bytes.set(utf8(type), 4);
  bytes.set(data, 8);
  bytes.set(uint32be(crc32(bytes.subarray(4, data.length + 8))), data.length + 8);
  return bytes;
};
