/** What decoding will take is told from the header, by the size alone. */
import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { decodingBytes } from '../../workers/decode/index.ts';
import { HEIGHT, WIDTH, picture16, picture8 } from './decode-fixtures/picture.ts';
import { raw, raw16 } from './decode-helpers.ts';
import { exrWithAttribute } from './fuzz/hostile.ts';

const weigh = (bytes: Uint8Array) => decodingBytes(new Blob([Uint8Array.from(bytes)]), 'frame_07');
const picture = () => raw(picture8(), WIDTH, HEIGHT, 3);
const AREA = WIDTH * HEIGHT;

test('what the browser decodes takes two pictures of four bytes a pixel', async () => {
  for (const format of ['png', 'jpeg', 'webp', 'avif'] as const)
    expect(await weigh(await picture()[format]().toBuffer()), format).toBe(8 * AREA);
});

test('16 bits and floats take more', async () => {
  const png = await raw16(picture16(), WIDTH, HEIGHT, 3).png().toBuffer();
  const tiff = await picture().tiff({ compression: 'lzw' }).toBuffer();
  const exr = readFileSync(new URL('decode-fixtures/half-zip.exr', import.meta.url));
  for (const file of [png, tiff, exr]) expect(await weigh(file)).toBeGreaterThan(16 * AREA);
});

test('what is not decoded is refused already here', async () => {
  const png = await picture().png().toBuffer();
  png.writeUInt32BE(30000, 16);
  await expect(weigh(png)).rejects.toMatchObject({ code: 'too-large', file: 'frame_07' });
  await expect(weigh(exrWithAttribute(9))).rejects.toMatchObject({ code: 'damaged' });
  await expect(weigh(Buffer.from('%PDF-1.7'))).rejects.toMatchObject({ code: 'not-a-picture' });
});
