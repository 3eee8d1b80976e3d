/** What is not decoded: told apart by content, checked for size before pixels, and never half a picture. */
import { readFileSync } from 'node:fs';
import { crc32, deflateSync } from 'node:zlib';
import sharp from 'sharp';
import { describe, expect, test } from 'vitest';
import { decodeImage, formats } from '../../workers/decode/index.ts';
import { HEIGHT, WIDTH, picture8 } from './decode-fixtures/picture.ts';
import { raw, raw16 } from './decode-helpers.ts';

const decode = (bytes: Buffer, name = 'frame_07.png'): Promise<unknown> =>
  decodeImage(new Blob([new Uint8Array(bytes)]), name);
const text = (start: string): Buffer => Buffer.from(start.padEnd(64, ' '), 'latin1');

describe('not a picture', () => {
  // First bytes by each format's own specification.
  test.each([
    ['a PDF', text('%PDF-1.7\n')],
    ['a GIF', text('GIF89a')],
    ['an SVG drawing', text('<?xml version="1.0"?>\n<!-- a leaf -->\n<svg viewBox="0 0 1 1"/>')],
    ['a video', Buffer.from('\0\0\0\x18ftypmp42\0\0\0\0mp42isom', 'latin1')],
    ['a video', Buffer.from([0x1a, 0x45, 0xdf, 0xa3, 1, 2, 3, 4])],
    ['a ZIP archive', text('PK\x03\x04')],
    ['not a picture the studio knows', text('depth of the glasshouse')],
  ])('%s', async (what, bytes) => {
    await expect(decode(bytes)).rejects.toMatchObject({
      code: 'not-a-picture',
      file: 'frame_07.png',
      message: expect.stringMatching(
        new RegExp(`"frame_07\\.png" is ${what}.*reads PNG`),
      ) as string,
    });
  });

  test.each([
    ['PSD', text('8BPS\0\x01')],
    ['HEIF', Buffer.from('\0\0\0\x18ftypheic\0\0\0\0mif1heic', 'latin1')],
    ['JPEG XL', Buffer.from([0xff, 0x0a, 0, 0])],
  ])('a picture of a kind not read: %s', async (what, bytes) => {
    await expect(decode(bytes)).rejects.toMatchObject({
      code: 'unsupported-variant',
      message: expect.stringContaining(what) as string,
    });
  });

  test('a real GIF by sharp', async () => {
    const gif = await raw(picture8(), WIDTH, HEIGHT, 3).gif().toBuffer();
    await expect(decode(gif)).rejects.toMatchObject({ code: 'not-a-picture' });
  });

  test('an empty file is damaged, not unknown', async () => {
    await expect(decode(Buffer.alloc(0))).rejects.toMatchObject({ code: 'damaged' });
  });

  test('a file that can no longer be read is gone', async () => {
    const gone = new Blob(['x']);
    gone.slice = () => gone;
    gone.arrayBuffer = () => Promise.reject(new DOMException('gone', 'NotReadableError'));
    await expect(decodeImage(gone, 'frame_07.png')).rejects.toMatchObject({
      code: 'file-gone',
      file: 'frame_07.png',
    });
  });

  test('every format says how its files are named', () => {
    expect(formats.map(({ label }) => label)).toEqual([
      'PNG',
      'JPEG',
      'WebP',
      'AVIF',
      'TIFF',
      'OpenEXR',
    ]);
    for (const { types, extensions } of formats) {
      expect(types.every((type) => type.startsWith('image/'))).toBe(true);
      expect(extensions.length).toBeGreaterThan(0);
    }
  });
});

/** A picture by sharp with its size in the header overwritten: few bytes that announce many pixels. */
describe('too large', () => {
  const picture = () => raw(picture8(), WIDTH, HEIGHT, 3);
  const expectTooLarge = async (bytes: Buffer, size: string) => {
    await expect(decode(bytes)).rejects.toMatchObject({
      code: 'too-large',
      file: 'frame_07.png',
      message: expect.stringContaining(size) as string,
    });
  };

  test.each([
    [30000, 10],
    [10, 30000],
    [16000, 16000],
  ])('PNG of %i × %i', async (width, height) => {
    const png = await picture().png().toBuffer();
    png.writeUInt32BE(width, 16);
    png.writeUInt32BE(height, 20);
    await expectTooLarge(png, `${width} × ${height} pixels`);
  });

  test('16-bit PNG', async () => {
    const png = await raw16(new Uint16Array(12), 2, 2, 3).png().toBuffer();
    png.writeUInt32BE(20001, 16);
    await expectTooLarge(png, '20001 × 2 pixels');
  });

  test('JPEG', async () => {
    const jpeg = await picture().jpeg().toBuffer();
    const frame = jpeg.indexOf(Buffer.from([0xff, 0xc0]));
    jpeg.writeUInt16BE(65000, frame + 5);
    await expectTooLarge(jpeg, `${WIDTH} × 65000 pixels`);
  });

  test('WebP with an extended header', async () => {
    const webp = await picture().withIccProfile('p3').webp().toBuffer();
    expect(webp.toString('latin1', 12, 16)).toBe('VP8X');
    webp.writeUIntLE(25000 - 1, 24, 3);
    await expectTooLarge(webp, `25000 × ${HEIGHT} pixels`);
  });

  test('AVIF', async () => {
    const avif = await picture().avif().toBuffer();
    const size = avif.indexOf('ispe');
    avif.writeUInt32BE(40000, size + 8);
    await expectTooLarge(avif, `40000 × ${HEIGHT} pixels`);
  });

  test('TIFF', async () => {
    const tiff = await picture().tiff({ compression: 'none' }).toBuffer();
    // ImageWidth, tag 256, little-endian: SHORT or LONG with one value.
    const directory = tiff.readUInt32LE(4);
    const entry = directory + 2;
    expect(tiff.readUInt16LE(entry)).toBe(256);
    tiff.writeUInt32LE(40000, entry + 8);
    await expectTooLarge(tiff, `40000 × ${HEIGHT} pixels`);
  });
});

/** A few bytes that state, or unfold to, far more than they are: found out before room is made for it. */
describe('bombs', () => {
  const chunk = (type: string, body: Buffer): Buffer => {
    const named = Buffer.concat([Buffer.from(type, 'latin1'), body]);
    const out = Buffer.alloc(named.length + 8);
    out.writeUInt32BE(body.length);
    named.copy(out, 4);
    out.writeUInt32BE(crc32(named), named.length + 4);
    return out;
  };
  /** 16-bit grey, with `zeros` bytes of pixels whatever its size. */
  const png = (width: number, height: number, zeros: number): Buffer => {
    const head = Buffer.from([0, 0, 0, 0, 0, 0, 0, 0, 16, 0, 0, 0, 0]);
    head.writeUInt32BE(width, 0);
    head.writeUInt32BE(height, 4);
    const signature = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);
    const pixels = deflateSync(Buffer.alloc(zeros), { level: 9 });
    return Buffer.concat([
      signature,
      chunk('IHDR', head),
      chunk('IDAT', pixels),
      chunk('IEND', Buffer.alloc(0)),
    ]);
  };

  test('a PNG that states 200 megapixels in a hundred bytes', async () => {
    await expect(decode(png(14000, 14000, 1000))).rejects.toMatchObject({
      code: 'damaged',
      message: expect.stringMatching(/14000 × 14000 pixels, more than its \d+ bytes/) as string,
    });
  });

  test('a PNG of 4 × 4 pixels that unfolds to 300 MB', async () => {
    await expect(decode(png(4, 4, 3e8))).rejects.toMatchObject({
      code: 'damaged',
      message: expect.stringContaining('unpack to more than its size says') as string,
    });
  });

  test('a TIFF that states 200 megapixels in one Deflate strip', async () => {
    const tiff = await raw(picture8(), WIDTH, HEIGHT, 3)
      .tiff({ compression: 'deflate' })
      .toBuffer();
    const directory = tiff.readUInt32LE(4);
    for (let i = 0; i < tiff.readUInt16LE(directory); i += 1) {
      const entry = directory + 2 + i * 12;
      // ImageWidth, ImageLength and RowsPerStrip; numbers of two bytes or four.
      if ([256, 257, 278].includes(tiff.readUInt16LE(entry))) tiff.writeUInt32LE(14000, entry + 8);
    }
    await expect(decode(tiff)).rejects.toMatchObject({
      code: 'damaged',
      message: expect.stringContaining('14000 × 14000 pixels, more than its') as string,
    });
  });

  test('an OpenEXR whose codes stand for more numbers than it has room for', async () => {
    // A fixture of this project broken by the fuzzer: the reading library never comes back from it.
    const exr = readFileSync(new URL('decode-fixtures/endless-piz.broken', import.meta.url));
    await expect(decode(exr)).rejects.toMatchObject({
      code: 'damaged',
      message: expect.stringContaining('packed in a way that makes no sense') as string,
    });
  });

  test('a TIFF whose pages lead back to the first', async () => {
    const tiff = await raw(picture8(), WIDTH, HEIGHT, 3).tiff({ compression: 'none' }).toBuffer();
    const directory = tiff.readUInt32LE(4);
    tiff.writeUInt32LE(directory, directory + 2 + 12 * tiff.readUInt16LE(directory));
    await expect(decode(tiff)).rejects.toMatchObject({
      code: 'damaged',
      message: expect.stringContaining('lead back to each other') as string,
    });
  });
});

/** Sizes are read right from every header: a size beyond the limit only shows up when they are. */
test.each([
  ['lossy', {}],
  ['lossless', { lossless: true }],
  ['with alpha', { lossless: true, alpha: true }],
])(
  'a WebP %s is let through to the browser at 16000 px wide',
  async (_, { lossless = false, alpha = false }: { lossless?: boolean; alpha?: boolean }) => {
    const wide = sharp({
      create: { width: 16000, height: 20, channels: alpha ? 4 : 3, background: '#8a8' },
    });
    const webp = await wide.webp({ lossless }).toBuffer();
    // Node has no createImageBitmap: past the header the decoder can only say that it cannot decode.
    await expect(decode(webp)).rejects.toMatchObject({
      code: 'damaged',
      message: expect.stringContaining('browser cannot decode') as string,
    });
  },
);

describe('cut off', () => {
  test.each(['png', 'jpeg', 'webp', 'avif'] as const)('%s', async (format) => {
    const whole = await raw(picture8(), WIDTH, HEIGHT, 3)[format]().toBuffer();
    for (const part of [0.05, 0.3, 0.6, 0.95]) {
      const cut = whole.subarray(0, Math.floor(whole.length * part));
      await expect(decode(cut), `${part}`).rejects.toMatchObject({
        code: 'damaged',
        message: expect.stringMatching(/breaks off|cut off/) as string,
      });
    }
  });

  test('16-bit PNG with one bit turned', async () => {
    const png = await raw16(new Uint16Array(WIDTH * HEIGHT * 3).fill(7), WIDTH, HEIGHT, 3)
      .png()
      .toBuffer();
    png[png.indexOf('IDAT') + 12]! ^= 1;
    await expect(decode(png)).rejects.toMatchObject({ code: 'damaged' });
  });
});

test.each([
  ['CMYK', async () => raw(picture8(), WIDTH, HEIGHT, 3).toColourspace('cmyk').jpeg().toBuffer()],
])('a JPEG in %s is refused with what to do', async (what, file) => {
  await expect(decode(await file())).rejects.toMatchObject({
    code: 'unsupported-variant',
    message: expect.stringMatching(new RegExp(`${what}.*Save it in RGB`)) as string,
  });
});
