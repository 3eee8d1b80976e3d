/** The tags of a TIFF page that decide how its samples are read (TIFF 6.0; technical notes where named). */
import type { GeoTIFF, GeoTIFFImage } from 'geotiff';
import { checkSize, damaged, unsupported } from './image.ts';
import type { PixelSize } from './image.ts';

export interface TiffFacts extends PixelSize {
  readonly bits: number;
  readonly float: boolean;
  readonly samples: number;
  /** 0 white is zero, 1 black is zero, 2 RGB, 3 palette, 6 YCbCr (in JPEG only). */
  readonly photometric: number;
  readonly compression: number;
  readonly predictor: number;
  readonly planar: number;
  /** 1 … 8, as in EXIF. */
  readonly orientation: number;
  /** Of the first extra sample. An unspecified one is a mask or a spare, not transparency. */
  readonly alpha: 'none' | 'associated' | 'unassociated';
  readonly icc?: Uint8Array;
  /** All reds, then all greens, then all blues, 0 … 65535. */
  readonly palette?: Uint16Array;
  /** Full pictures in the file; smaller copies and masks are not counted. */
  readonly pages: number;
}

const compressions: Readonly<Record<number, string>> = {
  1: 'none',
  5: 'LZW',
  7: 'JPEG',
  8: 'Deflate',
  32773: 'PackBits',
  32946: 'Deflate',
  50000: 'Zstandard',
};
const REMEDY = 'Save it as TIFF in RGB, 8 or 16 bit, with LZW or no compression, or as PNG.';

type Numbers = (tag: number) => Promise<number[] | undefined>;

const reader =
  (image: GeoTIFFImage): Numbers =>
  async (tag) => {
    const value: unknown = await image.fileDirectory.loadValue(tag);
    if (value === undefined) return undefined;
    return typeof value === 'object'
      ? Array.from(value as ArrayLike<number>, Number)
      : [Number(value)];
  };

/** NewSubfileType: bit 0 a smaller copy of another page, bit 2 a mask for one. */
const NOT_A_PICTURE = 1 | 4;

/** The first full picture and how many there are. */
export const firstPage = async (tiff: GeoTIFF): Promise<{ page: GeoTIFFImage; pages: number }> => {
  const count = await tiff.getImageCount();
  let page: GeoTIFFImage | undefined;
  let pages = 0;
  for (let i = 0; i < count; i += 1) {
    const image = await tiff.getImage(i);
    const [subfile = 0] = (await reader(image)(254)) ?? [];
    if ((subfile & NOT_A_PICTURE) !== 0) continue;
    page ??= image;
    pages += 1;
  }
  return { page: page ?? (await tiff.getImage(0)), pages: Math.max(1, pages) };
};

/** Most channels of a pixel that are read: a picture has no more, and each takes memory. */
const SAMPLES_AT_MOST = 16;

/** How many strips or tiles the file must have. Their sizes come from the file, so they are checked first. */
const blocksOf = (page: GeoTIFFImage, planes: number, name: string): number => {
  const [widthPx, heightPx] = [page.getTileWidth(), page.getTileHeight()];
  checkSize({ widthPx, heightPx }, name);
  return Math.ceil(page.getWidth() / widthPx) * Math.ceil(page.getHeight() / heightPx) * planes;
};

/** Checks that every strip or tile lies inside the file: otherwise a part of the picture is missing. */
const checkBlocks = async (
  numbers: Numbers,
  tiled: boolean,
  blocks: number,
  fileBytes: number,
  name: string,
) => {
  const offsets = (await numbers(tiled ? 324 : 273)) ?? [];
  const counts = (await numbers(tiled ? 325 : 279)) ?? [];
  const whole =
    offsets.length >= blocks &&
    offsets.every((offset, i) => {
      const count = counts[i] ?? 0;
      return offset > 0 && count > 0 && offset + count <= fileBytes;
    });
  if (!whole) throw damaged(name, 'the TIFF breaks off before the end of its picture');
};

/**
 * Most unpacked bytes of one packed byte, by compression: a deflate code of two bits stands for 258 bytes, an
 * LZW code of twelve for 3839. Other compressions have no such limit; only the picture's size is limited there.
 */
const EXPANDS_TO: Readonly<Record<number, number>> = {
  1: 1,
  5: 2560,
  8: 1032,
  32773: 64,
  32946: 1032,
};

/** Refuses a few bytes that state a picture of gigabytes, before memory is taken for it. */
const checkFilling = (facts: TiffFacts, fileBytes: number, name: string): void => {
  const { widthPx, heightPx, samples, bits, compression } = facts;
  const wanted = (widthPx * heightPx * samples * bits) / 8;
  if (wanted > fileBytes * (EXPANDS_TO[compression] ?? Infinity))
    throw damaged(
      name,
      `the TIFF is said to be ${widthPx} × ${heightPx} pixels, more than its ${fileBytes} bytes can hold`,
    );
};

/** Refuses, by name, each variant that would be decoded wrongly. */
const checkReadable = (facts: TiffFacts, fillOrder: number, name: string): void => {
  const { bits, float, photometric, compression, predictor } = facts;
  if (!compressions[compression]) {
    const read = [...new Set(Object.values(compressions))].join(', ');
    throw unsupported(
      name,
      `is a TIFF with compression number ${compression}; read are ${read}`,
      REMEDY,
    );
  }
  if (photometric === 5) {
    throw unsupported(name, 'is a TIFF in CMYK, made for a press', `Convert it to RGB. ${REMEDY}`);
  }
  if (photometric > 3 && !(photometric === 6 && compression === 7 && facts.planar === 1)) {
    throw unsupported(
      name,
      `is a TIFF in a colour model that is not read here (photometric ${photometric})`,
      REMEDY,
    );
  }
  if (float ? bits !== 32 : ![1, 2, 4, 8, 16].includes(bits) || (photometric === 3 && bits > 8)) {
    throw unsupported(name, `is a TIFF with ${bits} bits ${float ? 'float ' : ''}a sample`, REMEDY);
  }
  const predicted = (predictor === 2 && bits >= 8) || (predictor === 3 && float);
  if (predictor !== 1 && !predicted) {
    throw unsupported(name, `is a TIFF with predictor ${predictor} at ${bits} bits`, REMEDY);
  }
  if (fillOrder !== 1) throw unsupported(name, 'is a TIFF with its bits in reverse', REMEDY);
};

const alphaOf = (extra: number | undefined): TiffFacts['alpha'] => {
  if (extra === 1) return 'associated';
  return extra === 2 ? 'unassociated' : 'none';
};

/**
 * Facts without the strips: size first, so that it can be checked before anything large is read.
 * @throws StudioError `damaged` or `unsupported-variant`
 */
export const readTiffFacts = async (
  page: GeoTIFFImage,
  pages: number,
  fileBytes: number,
  name: string,
): Promise<TiffFacts> => {
  const numbers = reader(page);
  const one = async (tag: number, fallback: number) => (await numbers(tag))?.[0] ?? fallback;
  const bitsEach = (await numbers(258)) ?? [1];
  const formatEach = (await numbers(339)) ?? [1];
  const samples = await one(277, 1);
  const photometric = await one(262, samples >= 3 ? 2 : 1);
  const bits = bitsEach[0] ?? 1;
  const format = formatEach[0] ?? 1;
  const mixed = bitsEach.some((b) => b !== bits) || formatEach.some((f) => f !== format);
  if (mixed || (format !== 1 && format !== 3 && format !== 4)) {
    throw unsupported(name, 'is a TIFF with signed or mixed samples', REMEDY);
  }
  const wanted = photometric === 2 || photometric === 6 ? 3 : 1;
  if (samples > SAMPLES_AT_MOST)
    throw unsupported(
      name,
      `is a TIFF with ${samples} channels`,
      `Leave out the others. ${REMEDY}`,
    );
  if (samples < wanted)
    throw damaged(name, `the TIFF has ${samples} samples a pixel, not ${wanted}`);
  const icc = await numbers(34675);
  const palette = await numbers(320);
  if (photometric === 3 && (palette?.length ?? 0) < 3 << bits) {
    throw damaged(name, 'the TIFF is palette-coloured but its palette is missing');
  }
  const facts: TiffFacts = {
    widthPx: page.getWidth(),
    heightPx: page.getHeight(),
    bits,
    float: format === 3,
    samples,
    photometric,
    compression: await one(259, 1),
    predictor: await one(317, 1),
    planar: samples === 1 ? 1 : await one(284, 1),
    orientation: await one(274, 1),
    alpha: samples > wanted ? alphaOf((await numbers(338))?.[0]) : 'none',
    ...(icc ? { icc: Uint8Array.from(icc) } : {}),
    ...(palette ? { palette: Uint16Array.from(palette) } : {}),
    pages,
  };
  checkReadable(facts, await one(266, 1), name);
  const blocks = blocksOf(page, facts.planar === 2 ? samples : 1, name);
  await checkBlocks(numbers, page.isTiled, blocks, fileBytes, name);
  checkFilling(facts, fileBytes, name);
  return facts;
};
