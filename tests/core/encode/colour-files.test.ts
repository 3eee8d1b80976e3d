/** Sheets in a printer's own numbers, read by libvips, geotiff, fast-png and pdf.js: profile and numbers come back. */
import { decode } from 'fast-png';
import { fromArrayBuffer } from 'geotiff';
import sharp from 'sharp';
import { describe, expect, test } from 'vitest';
import { pngWriter } from '../../../src/core/encode/png.ts';
import type { SheetColour } from '../../../src/core/encode/row-writer.ts';
import { channelsOf } from '../../../src/core/encode/row-writer.ts';
import { tiffWriter } from '../../../src/core/encode/tiff.ts';
import { cmykProfile, rgbProfile } from '../../contract/colour/published.ts';
import { info, objectOf, openWithPdfjs, pdfOf, pictureOf } from './pdf-file.ts';
import { fileOf, scrambled } from './sheet-file.ts';

const press = async (): Promise<SheetColour> => ({
  space: 'CMYK',
  use: 'printer',
  name: 'Chemical proof',
  profile: await cmykProfile(),
});
const screen = async (): Promise<SheetColour> => ({
  space: 'RGB',
  use: 'working',
  name: 'Glossy paper, “best”',
  profile: await rgbProfile('p3'),
});
/** Only its bytes are carried: any will do. */
const grey = async (): Promise<SheetColour> => ({
  space: 'GRAY',
  use: 'working',
  name: '',
  profile: Uint8Array.from({ length: 70_000 }, (_, i) => i * i),
});

describe('TIFF', () => {
  for (const [name, colourOf, photometric] of [
    ['CMYK', press, 5],
    ['RGB', screen, 2],
    ['grey', grey, 1],
  ] as const)
    test(`${name}: numbers, profile and tags, in strips and tiles`, async () => {
      const colour = await colourOf();
      for (const [width, height] of [
        [31, 20],
        [33_000, 40],
      ] as const) {
        const sheet = info(width, height, { colour });
        const channels = channelsOf(sheet);
        const pixels = scrambled(width, height, 3, channels);
        const step = tiffWriter.bandStep(width, channels);
        const file = fileOf(tiffWriter, pixels, { info: sheet, rowsInBand: step * 7 });
        const image = await (await fromArrayBuffer(new Uint8Array(file).buffer)).getImage();
        const field = (tag: string): unknown => image.fileDirectory.getValue(tag as 'ImageWidth');
        expect(field('PhotometricInterpretation')).toBe(photometric);
        expect(field('SamplesPerPixel')).toBe(channels);
        const read = Buffer.from((await image.readRasters({ interleave: true })) as Uint8Array);
        expect(read.equals(Buffer.from(pixels))).toBe(true);
        const { icc, space, channels: seen } = await sharp(file).metadata();
        expect(icc?.equals(Buffer.from(colour.profile))).toBe(true);
        expect(seen).toBe(channels);
        expect(space).toBe({ CMYK: 'cmyk', RGB: 'srgb', grey: 'b-w' }[name]);
      }
    });
});

describe('PNG', () => {
  test('RGB and grey: numbers, profile, its name in Latin letters', async () => {
    for (const [colour, named] of [
      [await screen(), 'Glossy paper, ?best?'],
      [await grey(), 'profile'],
    ] as const) {
      const sheet = info(37, 25, { colour });
      const pixels = scrambled(37, 25, 2, channelsOf(sheet));
      const file = fileOf(pngWriter, pixels, { info: sheet, rowsInBand: 7 });
      const { data, channels, iccEmbeddedProfile } = decode(file);
      expect(channels).toBe(channelsOf(sheet));
      expect(data).toEqual(pixels);
      expect(iccEmbeddedProfile?.name).toBe(named);
      expect(Buffer.from(iccEmbeddedProfile?.profile ?? []).equals(colour.profile)).toBe(true);
      for (const srgb of ['sRGB', 'gAMA', 'cHRM', 'cICP'])
        expect(file.includes(srgb, 0, 'latin1')).toBe(false);
    }
  });

  test('has no CMYK', async () => {
    const sheet = info(3, 3, { colour: await press() });
    expect(() => pngWriter.open({ info: sheet, rowsInBand: 3 })).toThrow(/CMYK/);
  });
});

describe('PDF', () => {
  test('CMYK: PDF/X-4 with the printer’s profile as output intent, named once', async () => {
    const colour = await press();
    const sheet = info(40, 30, { colour, writtenAt: new Date('2026-11-30T12:00:00Z') });
    const { file, pixels } = pdfOf(sheet);
    expect(pictureOf(file, sheet).equals(Buffer.from(pixels))).toBe(true);
    const text = file.toString('latin1');
    expect(objectOf(file, 5).dictionary).toContain('/N 4');
    expect(objectOf(file, 5).bytes().equals(Buffer.from(colour.profile))).toBe(true);
    // ISO 15930-7: the version in the metadata, under this namespace; DeviceCMYK by the output intent.
    expect(text).toContain('xmlns:pdfxid="http://www.npes.org/pdfx/ns/id/"');
    expect(text).toContain('<pdfxid:GTS_PDFXVersion>PDF/X-4</pdfxid:GTS_PDFXVersion>');
    expect(text).toContain('/ColorSpace /DeviceCMYK');
    expect(text).toMatch(
      /\/OutputConditionIdentifier \(Chemical proof\).*\/DestOutputProfile 5 0 R/,
    );
    const { page } = await openWithPdfjs(file);
    expect((await page.getOperatorList()).fnArray.length).toBeGreaterThan(0);
  });

  test('RGB and grey: by their profile, and not called PDF/X-4', async () => {
    for (const colour of [await screen(), await grey()]) {
      const sheet = info(40, 30, { colour });
      const { file, pixels } = pdfOf(sheet);
      expect(pictureOf(file, sheet).equals(Buffer.from(pixels))).toBe(true);
      expect(objectOf(file, 5).bytes().equals(Buffer.from(colour.profile))).toBe(true);
      expect(objectOf(file, 6).dictionary).toContain('/ColorSpace [/ICCBased 5 0 R]');
      expect(file.toString('latin1')).not.toContain('PDF/X-4');
    }
  });

  test('a page too long for plain points is not called PDF/X-4', async () => {
    const colour = await press();
    // 300 in at 1 dpi: 21 600 points, beyond the 14 400 of a page (ISO 32000-1, annex C.2).
    const { file } = pdfOf({ ...info(300, 3, { colour }), horizontalDpi: 1, verticalDpi: 1 });
    expect(file.toString('latin1')).not.toContain('GTS_PDFXVersion');
  });
});
