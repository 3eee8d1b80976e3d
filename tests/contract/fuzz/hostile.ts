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

/** A PNG of 8 bits and of any size, which is whole. `shade` tells one from another. */
export const widePng = (widthPx: number, heightPx: number, shade = 0): Promise<Buffer> => {
  const random = randomOf(shade + 1);
  const small = Uint8Array.from({ length: 200 * 100 * 3 }, () => random.below(256));
  return sharp(small, { raw: { width: 200, height: 100, channels: 3 } })
    .resize(widthPx, heightPx, { kernel: 'linear', fit: 'fill' })
    .png({ compressionLevel: 2 })
    .toBuffer();
};

/** A PNG whose pixels are right and whose checksum of them is not; the chunk's own is right again. */
export const wrongAdler = (png: Uint8Array): Uint8Array<ArrayBuffer> => {
  const forged = Uint8Array.from(png);
  // The last four bytes of the last IDAT, before its CRC-32 and the twelve bytes of IEND.
  forged[forged.length - 12 - 4 - 1]! ^= 1;
  return mendPng(forged);
};
