/**
 * An sRGB colour profile (IEC 61966-2-1): three primaries and one curve, about half a kilobyte. Section numbers are
 * those of ICC.1:2022.
 *
 * It declares version 4.0, the oldest that allows a curve given as a formula, so that as many readers as possible
 * accept it.
 */
import { joinBytes, uint16be, uint32be, utf8 } from './bytes.ts';

/** Readers that identify profiles by name know sRGB by this one. */
const NAME = 'sRGB IEC61966-2.1';
const LICENCE = 'No rights reserved';
/** Version 4.0. */
const VERSION = 0x04000000;

/** Whole 65536ths, the number format of profiles (4.6, s15Fixed16Number). */
type Fixed = number;
const ONE = 65536;

/** 7.2.16: the white of the profile connection space, 0.9642, 1, 0.8249. */
const D50 = [0xf6d6, 0x10000, 0xd32d] as const;

/**
 * XYZ of red, green and blue: the primaries and the white D65 of IEC 61966-2-1, adapted to D50 with the Bradford
 * matrix of annex E. Each is rounded to the nearest 65536th, except that blue’s Z is rounded up: the three then add
 * up to D50 exactly, and white stays white.
 */
const COLORANTS = {
  rXYZ: [0x6fa0, 0x38f5, 0x0390],
  gXYZ: [0x6297, 0xb787, 0x18d9],
  bXYZ: [0x249f, 0x0f84, 0xb6c4],
} as const;

/** D65 to D50, the Bradford matrix, row by row. */
const ADAPTATION = [68674, 1502, -3291, 1939, 64912, -1119, -606, 988, 49262] as const;

/** 10.18, function type 3: (a x + b)^g from d up, c x below; g, a, b, c, d of IEC 61966-2-1. */
const CURVE = [2.4, 1 / 1.055, 0.055 / 1.055, 1 / 12.92, 0.04045].map((v) => Math.round(v * ONE));

const typed = (signature: string, data: readonly number[]) =>
  Uint8Array.from([...utf8(signature), 0, 0, 0, 0, ...data]);

/** 10.31 XYZType. */
const xyz = (values: readonly Fixed[]) => typed('XYZ ', values.flatMap(uint32be));

/** 10.15 multiLocalizedUnicodeType: one text, in American English, which most readers ask for. */
const text = (value: string) =>
  typed('mluc', [
    ...[1, 12].flatMap(uint32be),
    ...utf8('enUS'),
    ...[value.length * 2, 28].flatMap(uint32be),
    ...Array.from(value, (character) => uint16be(character.charCodeAt(0))).flat(),
  ]);

const curve = () => typed('para', [...uint16be(3), 0, 0, ...CURVE.flatMap(uint32be)]);
const matrix = () => typed('sf32', ADAPTATION.flatMap(uint32be));

/** 7.2 Profile header, 128 bytes: display, RGB, XYZ, perceptual. */
const header = (byteLength: number) =>
  Uint8Array.from([
    ...uint32be(byteLength),
    ...uint32be(0),
    ...uint32be(VERSION),
    ...utf8('mntrRGB XYZ '),
    ...[2026, 11, 25, 0, 0, 0].flatMap(uint16be),
    ...utf8('acsp'),
    ...new Array<number>(28).fill(0),
    ...D50.flatMap(uint32be),
    ...new Array<number>(48).fill(0),
  ]);

/** The bytes of the profile. */
export const srgbProfile = (): Uint8Array<ArrayBuffer> => {
  const shared = curve();
  const tags: [string, Uint8Array][] = [
    ['desc', text(NAME)],
    ['cprt', text(LICENCE)],
    ['wtpt', xyz(D50)],
    ['chad', matrix()],
    ...Object.entries(COLORANTS).map(([tag, value]): [string, Uint8Array] => [tag, xyz(value)]),
    ['rTRC', shared],
    ['gTRC', shared],
    ['bTRC', shared],
  ];
  // 7.3: the tag table, then the data, each at a multiple of four; tags may share data.
  const table: number[] = [...uint32be(tags.length)];
  const parts: Uint8Array[] = [];
  const places = new Map<Uint8Array, number>();
  let at = 128 + 4 + 12 * tags.length;
  for (const [tag, data] of tags) {
    if (!places.has(data)) {
      places.set(data, at);
      const padded = new Uint8Array(Math.ceil(data.length / 4) * 4);
      padded.set(data);
      parts.push(padded);
      at += padded.length;
    }
    table.push(...utf8(tag), ...uint32be(places.get(data)!), ...uint32be(data.length));
  }
  return joinBytes([header(at), Uint8Array.from(table), ...parts]);
};
