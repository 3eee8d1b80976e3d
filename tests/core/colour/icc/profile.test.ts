/** The studio's own check of a profile, on profiles that libvips and pdf.js carry, whole and damaged. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { describe, expect, test } from 'vitest';
import { readProfile } from '../../../../src/core/colour/icc/profile.ts';
import { srgbProfile } from '../../../../src/core/encode/srgb-profile.ts';
import { cmykProfile, rgbProfile } from '../../../contract/colour/published.ts';

/** ICC.1:2022, 7.2: numbers are highest byte first. */
const put32 = (bytes: Uint8Array, at: number, value: number) => {
  new DataView(bytes.buffer).setUint32(at, value);
};
const get32 = (bytes: Uint8Array, at: number) => new DataView(bytes.buffer).getUint32(at);
const changed = (bytes: Uint8Array, change: (copy: Uint8Array) => void) => {
  const copy = bytes.slice();
  change(copy);
  return () => readProfile(copy);
};
const letters = (copy: Uint8Array, at: number, text: string) => copy.set(Buffer.from(text), at);
/** Place of a tag's entry in the table (7.3). */
const entryOf = (bytes: Uint8Array, tag: string) => Buffer.from(bytes).indexOf(tag, 132, 'latin1');

describe('a profile', () => {
  test('of a press, of a screen, and the studio’s own', async () => {
    expect(readProfile(await cmykProfile())).toEqual({
      name: 'Chemical proof',
      space: 'CMYK',
      use: 'printer',
      version: '2.2',
      hasTables: true,
    });
    expect(readProfile(await rgbProfile('p3'))).toMatchObject({
      space: 'RGB',
      use: 'working',
      version: '4.2',
      hasTables: false,
    });
    expect(readProfile(srgbProfile())).toMatchObject({ name: 'sRGB IEC61966-2.1', version: '4.0' });
  });

  test('that cannot be printed through says why', async () => {
    const [cmyk, p3] = [await cmykProfile(), await rgbProfile('p3')];
    const scanner = readFileSync(
      createRequire(import.meta.url).resolve('pdfjs-dist/iccs/CGATS001Compat-v2-micro.icc'),
    );
    expect(() => readProfile(Uint8Array.from(scanner))).toThrow(/scanner/);
    expect(() => readProfile(Uint8Array.from(Buffer.from('no profile')))).toThrow(/acsp/);
    expect(changed(cmyk, (copy) => letters(copy, 12, 'link'))).toThrow(/fixed pair/);
    expect(changed(cmyk, (copy) => letters(copy, 12, 'mntr'))).toThrow(/screen with four inks/);
    expect(changed(cmyk, (copy) => letters(copy, 16, '6CLR'))).toThrow(/“6CLR”/);
    expect(changed(p3, (copy) => copy.set([5], 8))).toThrow(/version 5/);
    expect(changed(p3, (copy) => letters(copy, entryOf(copy, 'rTRC'), 'xTRC'))).toThrow(/“rTRC”/);
  });
});

describe('a hostile profile', () => {
  test('is refused for its size, its list and its places', async () => {
    const cmyk = await cmykProfile();
    const entry = entryOf(cmyk, 'B2A0');
    expect(() => readProfile(cmyk.subarray(0, cmyk.length / 2))).toThrow(/breaks off/);
    expect(() => readProfile(new Uint8Array(2 ** 24 + 1))).toThrow(/16 MB/);
    expect(changed(cmyk, (copy) => put32(copy, 0, 8))).toThrow(/own header/);
    expect(changed(cmyk, (copy) => put32(copy, 128, 0xffffffff))).toThrow(/parts/);
    expect(changed(cmyk, (copy) => put32(copy, 128, 199))).toThrow(/inside it|twice|across/);
    expect(changed(cmyk, (copy) => put32(copy, entry + 4, 0xfffffff0))).toThrow(/inside it/);
    expect(changed(cmyk, (copy) => put32(copy, entry + 4, 4))).toThrow(/inside it/);
    expect(changed(cmyk, (copy) => put32(copy, entry + 8, 0xffffffff))).toThrow(/inside it/);
    expect(changed(cmyk, (copy) => put32(copy, entry + 4, get32(copy, entry + 4) + 8))).toThrow(
      /across|inside it/,
    );
    expect(changed(cmyk, (copy) => letters(copy, entryOf(copy, 'B2A1'), 'B2A0'))).toThrow(/twice/);
  });

  test('is refused for tables and curves that reach beyond their part', async () => {
    const [cmyk, p3] = [await cmykProfile(), await rgbProfile('p3')];
    const table = get32(cmyk, entryOf(cmyk, 'B2A0') + 4);
    // 10.10: channels in, channels out, steps.
    expect(changed(cmyk, (copy) => copy.set([255], table + 10))).toThrow(/beyond all size/);
    expect(changed(cmyk, (copy) => copy.set([60], table + 10))).toThrow(/breaks off/);
    expect(changed(cmyk, (copy) => copy.set([0], table + 10))).toThrow(/two steps/);
    expect(changed(cmyk, (copy) => copy.set([15], table + 9))).toThrow(/turns 3 numbers into 15/);
    expect(changed(cmyk, (copy) => letters(copy, table, 'mpet'))).toThrow(/no table/);
    const curve = get32(p3, entryOf(p3, 'rTRC') + 4);
    expect(changed(p3, (copy) => copy.set([0, 9], curve + 8))).toThrow(/formula/);
    expect(
      changed(p3, (copy) => {
        letters(copy, curve, 'curv');
        put32(copy, curve + 8, 0x7fffffff);
      }),
    ).toThrow(/breaks off/);
  });
});
