/** The sizes that a WebP and an AVIF state, of themselves and of their parts. */
import { expect, test } from 'vitest';
import { expectLetThrough, expectOthersRefuse, expectRefused, picture } from './refusals.ts';

test('a WebP that claims 14 000 × 14 000 pixels', async () => {
  const webp = await picture().webp().toBuffer();
  expect(webp.toString('latin1', 12, 16)).toBe('VP8 ');
  webp.writeUInt16LE(14000, 26);
  webp.writeUInt16LE(14000, 28);
  await expectRefused(webp, 'damaged', /14000 × 14000 pixels, more than its \d+ bytes/);
  await expectOthersRefuse(webp);
});

test('a WebP whose two headers differ', async () => {
  const webp = await picture().withIccProfile('p3').webp().toBuffer();
  webp.writeUIntLE(14000 - 1, 24, 3);
  await expectRefused(webp, 'damaged', /said to be 14000 × \d+ pixels and holds/);
  await expectOthersRefuse(webp);
});

test('a WebP with a part that reaches past its end', async () => {
  const webp = await picture().webp().toBuffer();
  webp.writeUInt32LE(webp.readUInt32LE(16) + 9, 16);
  await expectRefused(webp, 'damaged', /breaks off inside its VP8 part/);
  await expectOthersRefuse(webp);
});

test('an AVIF whose picture lies outside the file', async () => {
  const avif = await picture().avif().toBuffer();
  await expectLetThrough(avif);
  const media = avif.indexOf('mdat');
  const half = avif.subarray(0, Math.floor((media + avif.length) / 2));
  half.writeUInt32BE(half.length - media + 4, media - 4);
  await expectRefused(half, 'damaged', /AVIF breaks off inside its picture/);
  await expectOthersRefuse(half);
});
