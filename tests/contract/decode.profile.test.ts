/** A colour profile beyond all size is refused before it is unpacked or copied. */
import { deflateSync } from 'node:zlib';
import { expect, test } from 'vitest';
import { readDepthFile } from '../../workers/depth/index.ts';
import { iccpChunk, pngWith, raw16 } from './decode-helpers.ts';
import { exrWithAttribute, jpegWithProfile, tiffWithProfile } from './fuzz/hostile.ts';
import { NAME, expectLetThrough, expectRefused, picture } from './refusals.ts';

const bomb = iccpChunk('vast', Buffer.alloc(5e8));
const REASON = /colour profile of more than 16 MB.*Export it again/;

test.each([
  ['8 bit', () => picture().png().toBuffer()],
  ['16 bit', () => raw16(new Uint16Array(12), 2, 2, 3).png().toBuffer()],
])('in a PNG of %s, 500 MB unpacked', async (_, make) => {
  const png = pngWith(await make(), [bomb]);
  expect(png.length).toBeLessThan(1e6);
  await expectRefused(png, 'too-large', REASON);
  const depths = readDepthFile({ key: '1', name: NAME, file: new Blob([Uint8Array.from(png)]) });
  await expect(depths).rejects.toMatchObject({ code: 'too-large', file: NAME });
});

test('in a PNG, broken', async () => {
  const chunk = ['iCCP', Buffer.concat([Buffer.from('p\0\0'), deflateSync('leaf').fill(255)])];
  const png = pngWith(await picture().png().toBuffer(), [chunk as [string, Buffer]]);
  await expectRefused(png, 'damaged', /profile does not unpack/);
});

test('in a TIFF', async () => {
  await expectRefused(await tiffWithProfile(5e8), 'too-large', REASON);
});

test('in a JPEG, piece by piece', async () => {
  await expectLetThrough(await jpegWithProfile(10));
  await expectRefused(await jpegWithProfile(300), 'too-large', REASON);
});

test('in a WebP', async () => {
  const webp = await picture().withIccProfile('p3').webp().toBuffer();
  const profile = Buffer.alloc(8 + 2 ** 24 + 2);
  profile.write('ICCP', 'latin1');
  profile.writeUInt32LE(2 ** 24 + 2, 4);
  const grown = Buffer.concat([webp.subarray(0, 30), profile, webp.subarray(30)]);
  grown.writeUInt32LE(grown.length - 8, 4);
  await expectRefused(grown, 'too-large', REASON);
});

test('as a value in the header of an OpenEXR', async () => {
  await expectRefused(exrWithAttribute(2 ** 24 + 1), 'damaged', /no usable "iccProfile"/);
});
