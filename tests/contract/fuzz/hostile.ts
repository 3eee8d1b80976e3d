/** Files that cost far more than they look, or that show less than they claim: each made here, none kept. */
import sharp from 'sharp';
import { mendPng } from './mutate.ts';
import { randomOf } from './random.ts';

const noise = (length: number): Uint8Array => {
  const random = randomOf(7);
  return Uint8Array.from({ length }, () => random.below(256));
};

const END = Buffer.from([0xff, 0xd9]);

/** Noise, so that the size of the file says how much of the picture is there. */
export const noisyJpeg = (progressive = false): Promise<Buffer> =>
  sharp(noise(420 * 280 * 3), { raw: { width: 420, height: 280, channels: 3 } })
    .jpeg({ quality: 75, progressive })
    .toBuffer();

/** About 70 kB of noise whose header states another size. */
export const lyingJpeg = async (widthPx: number, heightPx: number): Promise<Buffer> => {
  const jpeg = await noisyJpeg();
  const frame = jpeg.indexOf(Buffer.from([0xff, 0xc0]));
  jpeg.writeUInt16BE(heightPx, frame + 5);
  jpeg.writeUInt16BE(widthPx, frame + 7);
  return jpeg;
};

/** The first part of a JPEG, closed as if it were whole. */
export const closedAfter = (jpeg: Buffer, share: number): Buffer =>
  Buffer.concat([jpeg.subarray(0, Math.floor(jpeg.length * share)), END]);

/** A PNG whose pixels are right and whose checksum of them is not; the chunk's own is right again. */
export const wrongAdler = (png: Uint8Array): Uint8Array<ArrayBuffer> => {
  const forged = Uint8Array.from(png);
  // The last four bytes of the last IDAT, before its CRC-32 and the twelve bytes of IEND.
  forged[forged.length - 12 - 4 - 1]! ^= 1;
  return mendPng(forged);
};

/** A JPEG with so many pieces of a profile (APP2, 64 kB each). */
export const jpegWithProfile = async (pieces: number): Promise<Buffer> => {
  const jpeg = await noisyJpeg();
  const piece = Buffer.alloc(2 + 65535);
  piece.write('\xff\xe2\xff\xffICC_PROFILE\0', 'latin1');
  const all = Array.from({ length: pieces }, (_, i) => {
    const one = Buffer.from(piece);
    one[16] = (i + 1) & 255;
    one[17] = pieces & 255;
    return one;
  });
  return Buffer.concat([jpeg.subarray(0, 2), ...all, jpeg.subarray(2)]);
};

/** A TIFF whose directory states a profile of so many bytes. */
export const tiffWithProfile = async (bytes: number): Promise<Buffer> => {
  const tiff = await sharp({ create: { width: 8, height: 8, channels: 3, background: '#8a8' } })
    .withIccProfile('p3')
    .tiff({ compression: 'none' })
    .toBuffer();
  const directory = tiff.readUInt32LE(4);
  for (let i = 0; i < tiff.readUInt16LE(directory); i += 1) {
    const field = directory + 2 + 12 * i;
    if (tiff.readUInt16LE(field) === 34675) tiff.writeUInt32LE(bytes, field + 4);
  }
  return tiff;
};

/** The beginning of an OpenEXR with one value of so many bytes in front. */
export const exrWithAttribute = (bytes: number): Buffer => {
  const head = Buffer.from('\x76\x2f\x31\x01\x02\0\0\0iccProfile\0opaque\0\0\0\0\0', 'latin1');
  head.writeUInt32LE(bytes, head.length - 4);
  return Buffer.concat([head, Buffer.alloc(bytes + 1)]);
};

/**
 * A grey JPEG of as many blocks of 8 × 8 in one row as there are pieces of data, with a restart marker
 * behind each (T.81, annex B). Its one code, of a single 0, stands for "nothing" in both tables.
 */
export const restartingJpeg = (blocks: number, data: readonly number[][]): Uint8Array => {
  const segment = (marker: number, ...body: number[]) => [
    ...[0xff, marker, (body.length + 2) >> 8, (body.length + 2) & 255],
    ...body,
  ];
  const oneCode = (table: number) => segment(0xc4, table, 1, ...new Array<number>(15).fill(0), 0);
  const pieces = data.flatMap((piece, i) =>
    i === 0 ? piece : [0xff, 0xd0 + ((i - 1) & 7), ...piece],
  );
  return Uint8Array.from([
    ...[0xff, 0xd8],
    ...segment(0xdb, 0, ...new Array<number>(64).fill(1)),
    ...segment(0xc0, 8, 0, 8, 0, blocks * 8, 1, 1, 0x11, 0),
    ...oneCode(0x00),
    ...oneCode(0x10),
    ...segment(0xdd, 0, 1),
    ...segment(0xda, 1, 1, 0x00, 0, 63, 0),
    ...pieces,
    ...[0xff, 0xd9],
  ]);
};
