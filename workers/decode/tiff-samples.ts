/** Reads the samples of a TIFF page from its strips or tiles. */
import { unzlibSync } from 'fflate';
import { BaseDecoder, getDecoder } from 'geotiff';
import type { GeoTIFFImage } from 'geotiff';
import { ZSTDDecoder } from 'zstddec';
import { damaged } from './image.ts';
import { decodeLzw } from './lzw.ts';
import type { TiffFacts } from './tiff-facts.ts';

export type Samples = Uint8Array | Uint16Array | Float32Array;
type Words = Uint8Array | Uint16Array | Uint32Array;

type Unpack = (packed: Uint8Array, blockBytes: number) => Uint8Array<ArrayBuffer>;

/** Unpacks no more than a block holds. */
class BoundedDecoder extends BaseDecoder {
  readonly #blockBytes: number;
  readonly #unpack: Unpack;

  constructor(parameters: BaseDecoder['parameters'], blockBytes: number, unpack: Unpack) {
    super(parameters);
    this.#blockBytes = blockBytes;
    this.#unpack = unpack;
  }

  override decodeBlock(buffer: ArrayBufferLike): ArrayBufferLike {
    const bytes = this.#unpack(new Uint8Array(buffer), this.#blockBytes);
    // The samples are read from the buffer's start.
    return bytes.byteLength === bytes.buffer.byteLength ? bytes.buffer : bytes.slice().buffer;
  }
}

const inflate: Unpack = (packed, blockBytes) =>
  unzlibSync(packed, { out: new Uint8Array(blockBytes) });

let zstandard: ZSTDDecoder | undefined;

/**
 * By compression. They replace the library's own: its LZW takes two seconds for a noisy 16-bit frame of
 * 1200 × 1500, this one 0.1 s, and its Deflate and Zstandard do not end while a broken stream goes on.
 */
const unpackers: Readonly<Record<number, () => Promise<Unpack>>> = {
  5: () => Promise.resolve(decodeLzw),
  8: () => Promise.resolve(inflate),
  32946: () => Promise.resolve(inflate),
  50000: async () => {
    const decoder = (zstandard ??= new ZSTDDecoder());
    await decoder.init();
    return (packed, blockBytes) => decoder.decode(packed, blockBytes) as Uint8Array<ArrayBuffer>;
  },
};

const openDecoder = async (page: GeoTIFFImage, facts: TiffFacts): Promise<BaseDecoder> => {
  const { bits, samples, planar, predictor, compression } = facts;
  const parameters = {
    tileWidth: page.getTileWidth(),
    tileHeight: page.getTileHeight(),
    planarConfiguration: planar,
    bitsPerSample: new Array<number>(samples).fill(bits),
    // Differences of whole numbers are undone below, in the file's own byte order.
    predictor: predictor === 3 ? 3 : 1,
    JPEGTables:
      compression === 7 ? ((await page.fileDirectory.loadValue(347)) as unknown) : undefined,
  };
  const unpack = await unpackers[compression]?.();
  if (unpack === undefined) return getDecoder(compression, parameters);
  const rowBits = parameters.tileWidth * (planar === 2 ? 1 : samples) * bits;
  return new BoundedDecoder(parameters, Math.ceil(rowBits / 8) * parameters.tileHeight, unpack);
};

const isLittleEndianHere = new Uint8Array(new Uint16Array([1]).buffer)[0] === 1;

const swapBytes = (buffer: ArrayBufferLike, width: number): void => {
  const bytes = new Uint8Array(buffer);
  for (let at = 0; at + width <= bytes.length; at += width)
    bytes.subarray(at, at + width).reverse();
};

const swap16 = (buffer: ArrayBufferLike): void => {
  const words = new Uint16Array(buffer, 0, buffer.byteLength >> 1);
  for (let i = 0; i < words.length; i += 1) words[i] = (words[i]! << 8) | (words[i]! >> 8);
};

/** Predictor 2: each sample was stored as its difference from the pixel to its left. */
const undoDifferences = (words: Words, rowLength: number, stride: number): void => {
  for (let row = 0; row + rowLength <= words.length; row += rowLength) {
    for (let i = row + stride; i < row + rowLength; i += 1) words[i]! += words[i - stride]!;
  }
};

/** One decoded strip or tile as numbers in this machine's byte order. */
const toSamples = (
  buffer: ArrayBufferLike,
  facts: TiffFacts,
  littleEndian: boolean,
  rowLength: number,
  stride: number,
): Samples => {
  const { bits, predictor } = facts;
  const differences = (words: Words) => {
    if (predictor === 2) undoDifferences(words, rowLength, stride);
  };
  if (bits <= 8) {
    const bytes = new Uint8Array(buffer);
    differences(bytes);
    return bytes;
  }
  // The floating point predictor leaves little-endian numbers whatever the file's order was.
  const stored = predictor === 3 ? true : littleEndian;
  if (bits === 16) {
    if (stored !== isLittleEndianHere) swap16(buffer);
    const words = new Uint16Array(buffer, 0, buffer.byteLength >> 1);
    differences(words);
    return words;
  }
  if (stored !== isLittleEndianHere) swapBytes(buffer, 4);
  differences(new Uint32Array(buffer, 0, buffer.byteLength >> 2));
  return new Float32Array(buffer, 0, buffer.byteLength >> 2);
};

const allocate = ({ bits }: TiffFacts, length: number): Samples => {
  if (bits <= 8) return new Uint8Array(length);
  return bits === 16 ? new Uint16Array(length) : new Float32Array(length);
};

/**
 * Interleaved samples, length widthPx × heightPx × samples; below 8 bits still one byte a sample, unscaled.
 * @throws StudioError `damaged` when a block holds fewer rows than it should
 */
export const readSamples = async (
  page: GeoTIFFImage,
  facts: TiffFacts,
  name: string,
): Promise<Samples> => {
  const { widthPx, heightPx, samples, planar } = facts;
  const decoder = await openDecoder(page, facts);
  const blockWidth = page.getTileWidth();
  const blockHeight = page.getTileHeight();
  const inBlock = planar === 2 ? 1 : samples;
  const out = allocate(facts, widthPx * heightPx * samples);
  const planes = planar === 2 ? samples : 1;
  for (let plane = 0; plane < planes; plane += 1) {
    for (let top = 0; top < heightPx; top += blockHeight) {
      const rows = Math.min(blockHeight, heightPx - top);
      for (let left = 0; left < widthPx; left += blockWidth) {
        const [x, y] = [left / blockWidth, top / blockHeight];
        const { data } = await page.getTileOrStrip(x, y, plane, decoder);
        const rowLength = blockWidth * inBlock;
        const block = toSamples(data, facts, page.littleEndian, rowLength, inBlock);
        if (block.length < rowLength * rows) {
          throw damaged(name, `the TIFF lacks rows from ${top} on`);
        }
        const used = Math.min(blockWidth, widthPx - left);
        for (let row = 0; row < rows; row += 1) {
          const from = block.subarray(row * rowLength, row * rowLength + used * inBlock);
          const to = ((top + row) * widthPx + left) * samples;
          if (planes === 1) out.set(from, to);
          else for (let i = 0; i < used; i += 1) out[to + i * samples + plane] = from[i]!;
        }
      }
    }
  }
  return out;
};
