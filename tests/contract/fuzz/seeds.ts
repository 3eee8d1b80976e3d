/** Good files of every format the studio reads, by encoders of others: what is broken by the fuzzers. */
import { readFileSync, readdirSync } from 'node:fs';
import type { Sharp, TiffOptions } from 'sharp';
import { HEIGHT, WIDTH, picture8 } from '../decode-fixtures/picture.ts';
import {
  DISPLAY_P3,
  greyProfile,
  iccpChunk,
  longs,
  matrixProfile,
  pngWith,
  raw,
  raw16,
} from '../decode-helpers.ts';

export interface Seed {
  /** What reads it: a row of the report. */
  readonly reader: 'PNG' | 'PNG, 16 bit' | 'JPEG' | 'WebP' | 'AVIF' | 'TIFF' | 'OpenEXR';
  readonly name: string;
  readonly bytes: Uint8Array;
}

const folder = new URL('../decode-fixtures/', import.meta.url);

const fixtures = (ending: string, reader: Seed['reader']): Seed[] =>
  readdirSync(folder)
    .filter((name) => name.endsWith(ending))
    .map((name) => ({ reader, name, bytes: readFileSync(new URL(name, folder)) }));

const ramp16 = (channels: number) =>
  new Uint16Array(WIDTH * HEIGHT * channels).map((_, i) => (i * 2053) & 65535);

const grey8 = () => picture8().filter((_, i) => i % 3 === 0);
const withAlpha = () =>
  Uint8Array.from({ length: WIDTH * HEIGHT * 4 }, (_, i) =>
    i % 4 === 3 ? (i * 3) & 255 : (picture8()[(i >> 2) * 3 + (i % 4)] ?? 0),
  );

const pngs = async (): Promise<Seed[]> => {
  const rgb = () => raw(picture8(), WIDTH, HEIGHT, 3);
  const plain = await rgb().png().toBuffer();
  const wide = await raw16(ramp16(3), WIDTH, HEIGHT, 3).png().toBuffer();
  const grey = await raw16(ramp16(1), WIDTH, HEIGHT, 1).png().toBuffer();
  const at8 = (name: string, bytes: Buffer): Seed => ({ reader: 'PNG', name, bytes });
  const at16 = (name: string, bytes: Buffer): Seed => ({ reader: 'PNG, 16 bit', name, bytes });
  return [
    at8('plain.png', plain),
    at8('palette.png', await rgb().png({ palette: true, colours: 16 }).toBuffer()),
    at8('grey.png', await raw(grey8(), WIDTH, HEIGHT, 1).png().toBuffer()),
    at8(
      'alpha.png',
      await raw(withAlpha(), WIDTH, HEIGHT, 4).png({ progressive: true }).toBuffer(),
    ),
    at8(
      'described.png',
      pngWith(plain, [
        ['gAMA', longs(45455)],
        ['cHRM', longs(1, 2, 3, 4, 5, 6, 7, 8)],
      ]),
    ),
    at16('wide.png', wide),
    at16('wide-alpha.png', await raw16(ramp16(4), WIDTH, HEIGHT, 4).png().toBuffer()),
    at16(
      'wide-interlaced.png',
      await raw16(ramp16(3), WIDTH, HEIGHT, 3).png({ progressive: true }).toBuffer(),
    ),
    at16('wide-grey.png', grey),
    at16('wide-p3.png', pngWith(wide, [iccpChunk('Display P3', matrixProfile(DISPLAY_P3))])),
    at16('wide-grey-icc.png', pngWith(grey, [iccpChunk('grey', greyProfile('grey', 2.2))])),
    at16('wide-cicp.png', pngWith(wide, [['cICP', Buffer.from([9, 13, 0, 1])]])),
    at16('wide-trns.png', pngWith(wide, [['tRNS', Buffer.from([0, 1, 0, 2, 0, 3])]])),
  ];
};

const photos = async (): Promise<Seed[]> => {
  const picture = () => raw(picture8(), WIDTH, HEIGHT, 3);
  const turned = () => picture().withMetadata({ orientation: 6 }).withIccProfile('p3');
  return [
    { reader: 'JPEG', name: 'plain.jpg', bytes: await picture().jpeg().toBuffer() },
    {
      reader: 'JPEG',
      name: 'turned.jpg',
      bytes: await turned().jpeg({ progressive: true }).toBuffer(),
    },
    { reader: 'WebP', name: 'plain.webp', bytes: await picture().webp().toBuffer() },
    {
      reader: 'WebP',
      name: 'lossless.webp',
      bytes: await picture().webp({ lossless: true }).toBuffer(),
    },
    { reader: 'WebP', name: 'turned.webp', bytes: await turned().webp().toBuffer() },
    { reader: 'AVIF', name: 'plain.avif', bytes: await picture().avif({ effort: 0 }).toBuffer() },
    { reader: 'AVIF', name: 'turned.avif', bytes: await turned().avif({ effort: 0 }).toBuffer() },
  ];
};

const tiffs = async (): Promise<Seed[]> => {
  const picture = () => raw(picture8(), WIDTH, HEIGHT, 3);
  const made = async (name: string, image: Sharp, options: TiffOptions): Promise<Seed> => ({
    reader: 'TIFF',
    name,
    bytes: await image.tiff(options).toBuffer(),
  });
  return [
    await made('lzw.tif', picture(), { compression: 'lzw' }),
    await made('deflate.tif', picture(), { compression: 'deflate', predictor: 'horizontal' }),
    await made('tiles.tif', picture(), {
      compression: 'lzw',
      tile: true,
      tileWidth: 16,
      tileHeight: 16,
    }),
    await made('jpeg.tif', picture(), { compression: 'jpeg' }),
    await made('wide.tif', raw16(ramp16(3), WIDTH, HEIGHT, 3), { compression: 'lzw' }),
    await made('profile.tif', picture().withIccProfile('p3'), { compression: 'none' }),
    ...fixtures('.tif', 'TIFF'),
  ];
};

export const seeds = async (): Promise<Seed[]> => [
  ...(await pngs()),
  ...(await photos()),
  ...(await tiffs()),
  ...fixtures('.exr', 'OpenEXR'),
];
