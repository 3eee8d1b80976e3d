/** Makes and reads test pictures for the decoder with software and formulas that are not ours. */
import { crc32, deflateSync } from 'node:zlib';
import type { Sharp } from 'sharp';
import sharp from 'sharp';

/** What a profile with a matrix and one curve holds (ICC.1:2022, 8.3). */
export interface MatrixProfile {
  readonly name: string;
  /** D50-adapted XYZ of red, green, blue. */
  readonly colorants: readonly (readonly [number, number, number])[];
  /** A power, or the sRGB curve. */
  readonly curve: number | 'sRGB';
}

/** Adobe RGB (1998) Color Image Encoding, May 2005: the profile's colorants, and gamma 563/256. */
export const ADOBE_RGB: MatrixProfile = {
  name: 'Adobe RGB (1998)',
  colorants: [
    [0.60974, 0.31111, 0.01947],
    [0.20528, 0.62567, 0.06087],
    [0.14919, 0.06322, 0.74457],
  ],
  curve: 563 / 256,
};

/** Display P3 as its maker's own profile holds it: colorants from memory, checked to add up to D50. */
export const DISPLAY_P3: MatrixProfile = {
  name: 'Display P3',
  colorants: [
    [0.51512, 0.2412, -0.00105],
    [0.29198, 0.69225, 0.04189],
    [0.1571, 0.06657, 0.78407],
  ],
  curve: 'sRGB',
};

/** D50 of the profile connection space, ICC.1:2022 7.2.16. */
const D50 = [0.9642, 1, 0.8249] as const;

const textTag = (text: string): Buffer => {
  const body = Buffer.alloc(12 + text.length + 1 + 78);
  body.write('desc', 0, 'latin1');
  body.writeUInt32BE(text.length + 1, 8);
  body.write(text, 12, 'latin1');
  return body;
};

const xyzTag = (xyz: readonly number[]): Buffer => {
  const body = Buffer.alloc(20);
  body.write('XYZ ', 0, 'latin1');
  xyz.forEach((value, i) => body.writeInt32BE(Math.round(value * 65536), 8 + i * 4));
  return body;
};

/** `curv` with one number, or `para` of type 3 (ICC.1:2022, 10.6 and 10.18). */
const curveTag = (curve: number | 'sRGB'): Buffer => {
  if (curve === 'sRGB') {
    const body = Buffer.alloc(32);
    body.write('para', 0, 'latin1');
    body.writeUInt16BE(3, 8);
    [2.4, 1 / 1.055, 0.055 / 1.055, 1 / 12.92, 0.04045].forEach((value, i) =>
      body.writeInt32BE(Math.round(value * 65536), 12 + i * 4),
    );
    return body;
  }
  const body = Buffer.alloc(16);
  body.write('curv', 0, 'latin1');
  body.writeUInt32BE(1, 8);
  body.writeUInt16BE(Math.round(curve * 256), 12);
  return body;
};

const profile = (space: string, tags: readonly (readonly [string, Buffer])[]): Buffer => {
  const padded = tags.map(([key, body]) => {
    const block = Buffer.alloc(Math.ceil(body.length / 4) * 4);
    body.copy(block);
    return [key, block, body.length] as const;
  });
  const table = Buffer.alloc(4 + padded.length * 12);
  table.writeUInt32BE(padded.length, 0);
  let at = 128 + table.length;
  padded.forEach(([key, block, length], i) => {
    table.write(key, 4 + i * 12, 'latin1');
    table.writeUInt32BE(at, 8 + i * 12);
    table.writeUInt32BE(length, 12 + i * 12);
    at += block.length;
  });
  const head = Buffer.alloc(128);
  head.writeUInt32BE(at, 0);
  head.writeUInt32BE(0x02400000, 8);
  head.write(`mntr${space}XYZ `, 12, 'latin1');
  head.write('acsp', 36, 'latin1');
  D50.forEach((value, i) => head.writeInt32BE(Math.round(value * 65536), 68 + i * 4));
  return Buffer.concat([head, table, ...padded.map(([, block]) => block)]);
};

export const matrixProfile = ({ name, colorants, curve }: MatrixProfile): Buffer =>
  profile('RGB ', [
    ['desc', textTag(name)],
    ['wtpt', xyzTag(D50)],
    ['rXYZ', xyzTag(colorants[0]!)],
    ['gXYZ', xyzTag(colorants[1]!)],
    ['bXYZ', xyzTag(colorants[2]!)],
    ['rTRC', curveTag(curve)],
    ['gTRC', curveTag(curve)],
    ['bTRC', curveTag(curve)],
  ]);

export const greyProfile = (name: string, gamma: number): Buffer =>
  profile('GRAY', [
    ['desc', textTag(name)],
    ['wtpt', xyzTag(D50)],
    ['kTRC', curveTag(gamma)],
  ]);

/** IEC 61966-2-1, written out here so that the tests do not lean on the code under test. */
export const srgbDecode = (v: number): number =>
  v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4;
export const srgbEncode = (v: number): number => {
  const c = Math.min(1, Math.max(0, v));
  return c <= 0.0031308 ? c * 12.92 : 1.055 * c ** (1 / 2.4) - 0.055;
};

type Rgb = readonly [number, number, number];
type Matrix = readonly [Rgb, Rgb, Rgb];
const times = (m: Matrix, v: Rgb): Rgb =>
  m.map((row) => row[0] * v[0] + row[1] * v[1] + row[2] * v[2]) as unknown as Rgb;

/** CSS Color Module Level 4, section 18 "Sample code": XYZ (D65) to linear sRGB. */
const XYZ_TO_LIN_SRGB: Matrix = [
  [12831 / 3959, -329 / 214, -1974 / 3959],
  [-851781 / 878810, 1648619 / 878810, 36519 / 878810],
  [705 / 12673, -2585 / 12673, 705 / 667],
];
/** The same section: linear Display P3 to XYZ. */
const LIN_P3_TO_XYZ: Matrix = [
  [608311 / 1250200, 189793 / 714400, 198249 / 1000160],
  [35783 / 156275, 247089 / 357200, 198249 / 2500400],
  [0, 32229 / 714400, 5220557 / 5000800],
];
/** The same section: linear Rec. 2020 to XYZ. */
const LIN_2020_TO_XYZ: Matrix = [
  [63426534 / 99577255, 20160776 / 139408157, 47086771 / 278816314],
  [26158966 / 99577255, 472592308 / 697040785, 8267143 / 139408157],
  [0, 19567812 / 697040785, 295819943 / 278816314],
];
/** The same section: linear Adobe RGB (1998), there named a98-rgb, to XYZ. */
const LIN_A98_TO_XYZ: Matrix = [
  [573536 / 994567, 263643 / 1420810, 187206 / 994567],
  [591459 / 1989134, 6239551 / 9945670, 374412 / 4972835],
  [53769 / 1989134, 351524 / 4972835, 4929758 / 4972835],
];

/** Display P3 codes 0 … 1 to sRGB codes 0 … 1, clipped channel by channel. */
export const p3ToSrgb = (codes: Rgb): Rgb =>
  times(XYZ_TO_LIN_SRGB, times(LIN_P3_TO_XYZ, codes.map(srgbDecode) as unknown as Rgb)).map(
    srgbEncode,
  ) as unknown as Rgb;

/** Adobe RGB (1998) codes 0 … 1 to sRGB codes 0 … 1, clipped channel by channel. */
export const adobeToSrgb = (codes: Rgb): Rgb =>
  times(
    XYZ_TO_LIN_SRGB,
    times(LIN_A98_TO_XYZ, codes.map((v) => v ** (563 / 256)) as unknown as Rgb),
  ).map(srgbEncode) as unknown as Rgb;

/** Linear Rec. 2020 to linear sRGB, not clipped. */
export const rec2020ToRec709 = (light: Rgb): Rgb =>
  times(XYZ_TO_LIN_SRGB, times(LIN_2020_TO_XYZ, light));

/** A colour over white paper in linear light; codes and alpha 0 … 1. */
export const overWhite = (code: number, alpha: number): number =>
  srgbEncode(alpha * srgbDecode(code) + 1 - alpha);

const chunkBytes = (type: string, body: Buffer): Buffer => {
  const named = Buffer.concat([Buffer.from(type, 'latin1'), body]);
  const out = Buffer.alloc(8 + named.length);
  out.writeUInt32BE(body.length, 0);
  named.copy(out, 4);
  out.writeUInt32BE(crc32(named), 4 + named.length);
  return out;
};

/** The PNG with more chunks right behind its header (33 bytes), their CRCs by zlib. */
export const pngWith = (png: Buffer, chunks: readonly (readonly [string, Buffer])[]): Buffer =>
  Buffer.concat([
    png.subarray(0, 33),
    ...chunks.map(([type, body]) => chunkBytes(type, body)),
    png.subarray(33),
  ]);

/** An `iCCP` chunk: keyword, compression method 0, deflated profile. */
export const iccpChunk = (keyword: string, profileBytes: Buffer): readonly [string, Buffer] => [
  'iCCP',
  Buffer.concat([Buffer.from(`${keyword}\0\0`, 'latin1'), deflateSync(profileBytes)]),
];

/** Big-endian 32-bit numbers, as gAMA and cHRM hold them. */
export const longs = (...values: number[]): Buffer => {
  const out = Buffer.alloc(values.length * 4);
  values.forEach((value, i) => out.writeUInt32BE(value, i * 4));
  return out;
};

/** A raw picture for sharp. `pixels` row-major, interleaved. */
export const raw = (
  pixels: Uint8Array | Uint16Array,
  width: number,
  height: number,
  channels: 1 | 2 | 3 | 4,
): Sharp => sharp(pixels, { raw: { width, height, channels } });

/** The same kept at 16 bit on its way to the file. */
export const raw16 = (
  pixels: Uint16Array,
  width: number,
  height: number,
  channels: 1 | 2 | 3 | 4,
): Sharp => raw(pixels, width, height, channels).toColourspace(channels < 3 ? 'grey16' : 'rgb16');
