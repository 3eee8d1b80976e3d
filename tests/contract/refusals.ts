/** For tests of what the decoder refuses before a pixel is decoded. */
import sharp from 'sharp';
import { expect } from 'vitest';
import { decodeImage } from '../../workers/decode/index.ts';
import { HEIGHT, WIDTH, picture8 } from './decode-fixtures/picture.ts';
import { raw } from './decode-helpers.ts';

export const NAME = 'frame_07';
export const picture = () => raw(picture8(), WIDTH, HEIGHT, 3);

/** What a person is told to do about a damaged file. */
export const AGAIN = /Copy it again .* or render that frame again/;

export const expectRefused = async (bytes: Uint8Array, code: string, reason: RegExp) => {
  await expect(decodeImage(new Blob([Uint8Array.from(bytes)]), NAME)).rejects.toMatchObject({
    code,
    file: NAME,
    message: expect.stringMatching(reason) as string,
  });
};

/** Node has no createImageBitmap: past all checks the decoder can only say that it cannot decode. */
export const expectLetThrough = (bytes: Uint8Array) =>
  expectRefused(bytes, 'damaged', /this browser cannot decode it/);

/** By a reader that is not ours. */
export const expectOthersRefuse = (bytes: Uint8Array) =>
  expect(sharp(bytes, { limitInputPixels: false }).raw().toBuffer()).rejects.toThrow();
