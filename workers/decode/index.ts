/** Decodes a frame of any format the studio reads. Runs in a worker. */
import { StudioError } from '../../src/contract/errors.ts';
import { nameInText } from '../../src/core/names/shown.ts';
import type { Ground } from './alpha.ts';
import { decodeInBrowser } from './browser.ts';
import { readAvifHeader, readWebpHeader } from './container-header.ts';
import { iccDescription } from './icc-description.ts';
import { asStudioError, checkSize, unsupported } from './image.ts';
import type { DecodedImage } from './image.ts';
import { readJpegHeader } from './jpeg-header.ts';
import { checkJpegScans } from './jpeg-scans.ts';
import { bytesToDecode } from './memory.ts';
import { pngColour } from './png-colour.ts';
import { iccpName, pngSize, readPngHeader } from './png-header.ts';
import type { PngHeader } from './png-header.ts';
import { checkPngInflates } from './png-inflate.ts';
import { checkPngProfile, checkProfileSize } from './profile-size.ts';
import { sniff } from './sniff.ts';
import type { FormatId } from './sniff.ts';

export type { DecodedImage } from './image.ts';
export { formats } from './sniff.ts';

/** Enough for every format's signature and for an SVG's prologue. */
const HEAD_BYTES = 1024;

type Decode = (
  file: Blob,
  bytes: Uint8Array<ArrayBuffer>,
  name: string,
  ground: Ground,
) => Promise<DecodedImage>;

const withProfile = (image: DecodedImage, profile: string | undefined): DecodedImage =>
  profile && !/^sRGB\b/.test(profile) ? { ...image, profile } : image;

const firstOf = (animated: boolean): string => (animated ? ', first picture of an animation' : '');

const pngKind = ({ bitDepth, colourType, chunks }: PngHeader): string => {
  const grey = colourType === 0 || colourType === 4 ? ' grey' : '';
  const palette = colourType === 3 ? ' palette' : '';
  return `PNG, ${bitDepth} bit${grey}${palette}${firstOf(chunks.has('acTL'))}`;
};

const decodePng: Decode = async (file, bytes, name, ground) => {
  checkSize(pngSize(bytes, name), name);
  const header = readPngHeader(bytes, name);
  checkPngProfile(header, name);
  await checkPngInflates(bytes, header, name);
  if (header.bitDepth === 16) {
    const { decodePng16 } = await import('./png16.ts');
    return decodePng16(bytes, header, pngKind(header), name, ground);
  }
  const colour = pngColour(header, undefined, name);
  const iccp = header.chunks.get('iCCP');
  const label = colour.type === 'primaries' ? colour.label : iccp && iccpName(iccp);
  return withProfile(await decodeInBrowser(file, name, pngKind(header), undefined, ground), label);
};

const decodeJpeg: Decode = async (file, bytes, name) => {
  const header = readJpegHeader(bytes, name);
  checkSize(header, name);
  checkProfileSize(header.iccBytes, name);
  if (header.components === 4) {
    throw unsupported(
      name,
      'is a JPEG in CMYK, made for a press',
      'Save it in RGB, with its profile, as JPEG, PNG or TIFF.',
    );
  }
  if (header.process > 2 || header.bitDepth !== 8) {
    throw unsupported(
      name,
      'is a JPEG of a rare kind (lossless, arithmetic coded, or not 8 bit)',
      'Save it as an ordinary JPEG, or as PNG.',
    );
  }
  checkJpegScans(bytes, name);
  return withProfile(
    await decodeInBrowser(file, name, 'JPEG'),
    header.icc && iccDescription(header.icc),
  );
};

const decodeWebp: Decode = async (file, bytes, name, ground) => {
  const header = readWebpHeader(bytes, name);
  checkProfileSize(header.icc?.length ?? 0, name);
  // Chromium ignores EXIF inside WebP, other browsers may not: so the picture is turned here in all of them.
  const kind = `WebP${firstOf(header.animated)}`;
  const image = await decodeInBrowser(file, name, kind, header.orientation, ground);
  return withProfile(image, header.icc && iccDescription(header.icc));
};

const decodeAvif: Decode = async (file, bytes, name, ground) => {
  const header = readAvifHeader(bytes, name);
  checkSize(header, name);
  checkProfileSize(header.icc?.length ?? 0, name);
  const image = await decodeInBrowser(
    file,
    name,
    `AVIF${firstOf(header.animated)}`,
    undefined,
    ground,
  );
  return withProfile(image, header.icc && iccDescription(header.icc));
};

const decoders: Readonly<Record<FormatId, Decode>> = {
  png: decodePng,
  jpeg: decodeJpeg,
  webp: decodeWebp,
  avif: decodeAvif,
  tiff: async (_file, bytes, name, ground) =>
    (await import('./tiff.ts')).decodeTiff(bytes, name, ground),
  exr: async (_file, bytes, name, ground) =>
    (await import('./exr.ts')).decodeExr(bytes, name, ground),
};

const readBytes = async (file: Blob, name: string): Promise<Uint8Array<ArrayBuffer>> => {
  try {
    return new Uint8Array(await file.arrayBuffer());
  } catch {
    throw new StudioError(
      'file-gone',
      `"${nameInText(name)}" can no longer be read: it was moved, changed or deleted, or access to it was withdrawn. ` +
        'Add it again.',
      name,
    );
  }
};

type Read<T> = (format: FormatId, bytes: Uint8Array<ArrayBuffer>) => Promise<T>;

const reading = async <T>(file: Blob, name: string, read: Read<T>): Promise<T> => {
  const format = sniff(await readBytes(file.slice(0, HEAD_BYTES), name), name);
  try {
    return await read(format.id, await readBytes(file, name));
  } catch (error) {
    throw asStudioError(error, name, format.label);
  }
};

/**
 * About how many bytes of memory `decodeImage` will take for this file.
 * @throws StudioError as decodeImage does, where the header shows it
 */
export const decodingBytes = (file: Blob, name: string): Promise<number> =>
  reading(file, name, (format, bytes) => bytesToDecode(format, bytes, name));

/**
 * @param name the file's name, for messages only
 * @param ground what transparent parts are laid on
 * @throws StudioError with the file's name and what to do: `not-a-picture`, `damaged`, `too-large`,
 *   `unsupported-variant`, or `file-gone` when the file can no longer be read
 */
export const decodeImage = (
  file: Blob,
  name: string,
  ground: Ground = 'white',
): Promise<DecodedImage> =>
  reading(file, name, (format, bytes) => decoders[format](file, bytes, name, ground));
