/** The dpi that a picture's file states: PNG pHYs, JPEG's JFIF or EXIF, TIFF's resolution. */
import type { ScanDensity } from '../src/core/pitch/bare/bare-lens.ts';
import { hasText, u16be, u16le, u32be, u32le } from './decode/bytes.ts';

const CM_PER_INCH = 2.54;

const sensible = (acrossDpi: number, downDpi: number): ScanDensity | undefined =>
  acrossDpi >= 50 && downDpi >= 50 && acrossDpi <= 20_000 && downDpi <= 20_000
    ? { acrossDpi: Math.round(acrossDpi * 100) / 100, downDpi: Math.round(downDpi * 100) / 100 }
    : undefined;

/** PNG, third edition, 11.3.4.3: pixels per metre. */
const pngDensity = (file: Uint8Array): ScanDensity | undefined => {
  for (let at = 8; at + 12 <= file.length && !hasText(file, at + 4, 'IDAT');) {
    if (hasText(file, at + 4, 'pHYs') && file[at + 16] === 1) {
      const toInch = (perMetre: number) => (perMetre * CM_PER_INCH) / 100;
      return sensible(toInch(u32be(file, at + 8)), toInch(u32be(file, at + 12)));
    }
    at += 12 + u32be(file, at);
  }
  return undefined;
};

/** TIFF 6.0, tags 282, 283 and 296, of the first page; EXIF holds the same. */
const tiffDensity = (file: Uint8Array): ScanDensity | undefined => {
  const little = hasText(file, 0, 'II');
  const [u16, u32] = little ? [u16le, u32le] : [u16be, u32be];
  const directory = u32(file, 4);
  const found: Record<number, number> = {};
  for (let i = 0; i < Math.min(u16(file, directory), 200); i += 1) {
    const at = directory + 2 + i * 12;
    const tag = u16(file, at);
    const value = u32(file, at + 8);
    if (tag === 282 || tag === 283) found[tag] = u32(file, value) / u32(file, value + 4);
    if (tag === 296) found[tag] = u16(file, at + 8);
  }
  const { 282: x = 0, 283: y = x, 296: unit = 2 } = found;
  if (unit === 2) return sensible(x, y);
  return unit === 3 ? sensible(x * CM_PER_INCH, y * CM_PER_INCH) : undefined;
};

/** JFIF 1.02, APP0; else EXIF in APP1. */
const jpegDensity = (file: Uint8Array): ScanDensity | undefined => {
  let exif: ScanDensity | undefined;
  for (let at = 2; at + 4 < file.length && file[at] === 0xff && file[at + 1] !== 0xda;) {
    const body = at + 4;
    if (file[at + 1] === 0xe0 && hasText(file, body, 'JFIF\0')) {
      const times = { 1: 1, 2: CM_PER_INCH }[file[body + 7] ?? 0] ?? 0;
      const stated = sensible(u16be(file, body + 8) * times, u16be(file, body + 10) * times);
      // 72 is a default that programs write; no scanner uses it.
      if (stated !== undefined && stated.acrossDpi !== 72) return stated;
    }
    if (file[at + 1] === 0xe1 && hasText(file, body, 'Exif\0\0'))
      exif = tiffDensity(file.subarray(body + 6, at + 2 + u16be(file, at + 2)));
    at += 2 + u16be(file, at + 2);
  }
  return exif?.acrossDpi === 72 ? undefined : exif;
};

export const statedDensity = (file: Uint8Array): ScanDensity | undefined => {
  if (hasText(file, 1, 'PNG')) return pngDensity(file);
  if (file[0] === 0xff && file[1] === 0xd8) return jpegDensity(file);
  if (hasText(file, 0, 'II*\0') || hasText(file, 0, 'MM\0*')) return tiffDensity(file);
  return undefined;
};
