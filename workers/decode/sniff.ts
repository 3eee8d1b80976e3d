/** Tells formats apart by their first bytes; a file's name is never trusted. */
import { StudioError } from '../../src/contract/errors.ts';
import { nameInText } from '../../src/core/names/shown.ts';
import { ascii, hasText, u16be } from './bytes.ts';
import { unsupported } from './image.ts';

export type FormatId = 'png' | 'jpeg' | 'webp' | 'avif' | 'tiff' | 'exr';

/** A format the studio reads. `types` and `extensions` are for file pickers and for wording only. */
export interface Format {
  readonly id: FormatId;
  readonly label: string;
  readonly types: readonly string[];
  readonly extensions: readonly string[];
  readonly matches: (head: Uint8Array) => boolean;
}

const startsWith =
  (...signature: number[]) =>
  (head: Uint8Array): boolean =>
    signature.every((byte, i) => head[i] === byte);

const isTiff = (head: Uint8Array): boolean => {
  const order = ascii(head, 0, 2);
  const magic = order === 'II' ? (head[2] ?? 0) : u16be(head, 2);
  return (order === 'II' || order === 'MM') && (magic === 42 || magic === 43);
};

/** Major and compatible brands of an ISO base media file (`ftyp` box), or none. */
const brands = (head: Uint8Array): string[] => {
  if (!hasText(head, 4, 'ftyp')) return [];
  const end = Math.min(u16be(head, 2), head.length);
  const list = [ascii(head, 8, 4)];
  for (let at = 16; at + 4 <= end; at += 4) list.push(ascii(head, at, 4));
  return list;
};

export const formats: readonly Format[] = [
  {
    id: 'png',
    label: 'PNG',
    types: ['image/png'],
    extensions: ['png'],
    matches: startsWith(0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a),
  },
  {
    id: 'jpeg',
    label: 'JPEG',
    types: ['image/jpeg'],
    extensions: ['jpg', 'jpeg'],
    matches: startsWith(0xff, 0xd8, 0xff),
  },
  {
    id: 'webp',
    label: 'WebP',
    types: ['image/webp'],
    extensions: ['webp'],
    matches: (head) => hasText(head, 0, 'RIFF') && hasText(head, 8, 'WEBP'),
  },
  {
    id: 'avif',
    label: 'AVIF',
    types: ['image/avif'],
    extensions: ['avif'],
    matches: (head) => brands(head).some((brand) => brand === 'avif' || brand === 'avis'),
  },
  {
    id: 'tiff',
    label: 'TIFF',
    types: ['image/tiff'],
    extensions: ['tif', 'tiff'],
    matches: isTiff,
  },
  {
    id: 'exr',
    label: 'OpenEXR',
    types: ['image/x-exr'],
    extensions: ['exr'],
    matches: startsWith(0x76, 0x2f, 0x31, 0x01),
  },
];

/** Formats that are found among frames and cannot be read, with what to do about each. */
const strangers: readonly [what: string, advice: string, matches: (head: Uint8Array) => boolean][] =
  [
    ['a PDF', 'Export the page as PNG or TIFF.', (h) => hasText(h, 0, '%PDF')],
    ['a GIF', 'Save its pictures as PNG, one a frame.', (h) => hasText(h, 0, 'GIF8')],
    ['a layered PSD picture', 'Save it flattened as TIFF or PNG.', (h) => hasText(h, 0, '8BPS')],
    ['a BMP', 'Save it as PNG.', (h) => hasText(h, 0, 'BM') && h[14] === 40],
    ['a Radiance HDR picture', 'Save it as OpenEXR.', (h) => hasText(h, 0, '#?R')],
    ['a JPEG XL picture', 'Save it as PNG or TIFF.', startsWith(0xff, 0x0a)],
    ['a JPEG XL picture', 'Save it as PNG or TIFF.', (h) => hasText(h, 4, 'JXL ')],
    ['a JPEG 2000 picture', 'Save it as PNG or TIFF.', (h) => hasText(h, 4, 'jP  ')],
    [
      'a HEIF photograph',
      'Export it from the camera or phone as JPEG, or save it as PNG.',
      (h) => brands(h).some((b) => ['heic', 'heix', 'hevc', 'mif1', 'msf1'].includes(b)),
    ],
    ['a video', 'Export its frames as PNG, one file each.', (h) => brands(h).length > 0],
    ['a video', 'Export its frames as PNG, one file each.', startsWith(0x1a, 0x45, 0xdf, 0xa3)],
    [
      'a video',
      'Export its frames as PNG, one file each.',
      (h) => hasText(h, 0, 'RIFF') && hasText(h, 8, 'AVI '),
    ],
    ['a ZIP archive', 'Unpack it and add the pictures.', startsWith(0x50, 0x4b, 0x03, 0x04)],
  ];

const isSvg = (head: Uint8Array): boolean =>
  /^(\uFEFF|\u00EF\u00BB\u00BF)?\s*<(\?xml[^]*?<svg|!DOCTYPE svg|svg|!--[^]*?<svg)/.test(
    ascii(head, 0, 1024),
  );

/**
 * The format of a file from its first bytes (64 or more; 1024 finds SVG behind a prologue).
 * Throws StudioError `not-a-picture` or `unsupported-variant`, naming what the file looks like.
 */
export const sniff = (head: Uint8Array, name: string): Format => {
  const format = formats.find((candidate) => candidate.matches(head));
  if (format) return format;
  if (head.length === 0) {
    throw new StudioError(
      'damaged',
      `"${nameInText(name)}" is empty. It may not have finished copying or rendering: check it and add it again.`,
      name,
    );
  }
  const readable = `The studio reads ${formats.map(({ label }) => label).join(', ')}.`;
  if (isSvg(head)) {
    throw new StudioError(
      'not-a-picture',
      `"${nameInText(name)}" is an SVG drawing, which has no pixels of its own. Export it as PNG. ${readable}`,
      name,
    );
  }
  const stranger = strangers.find(([, , matches]) => matches(head));
  if (!stranger) {
    throw new StudioError(
      'not-a-picture',
      `"${nameInText(name)}" is not a picture the studio knows. ${readable}`,
      name,
    );
  }
  const [what, advice] = stranger;
  if (/picture|photograph|BMP/.test(what)) {
    throw unsupported(name, `is ${what}, which is not read here`, `${advice} ${readable}`);
  }
  throw new StudioError(
    'not-a-picture',
    `"${nameInText(name)}" is ${what}. ${advice} ${readable}`,
    name,
  );
};
