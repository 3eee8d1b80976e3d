/** Opens a clip by its first bytes; a file's name is never trusted. */
import { StudioError } from '../../src/contract/errors.ts';
import { nameInText } from '../../src/core/names/shown.ts';
import type { Checkpoint } from '../answer.ts';
import { ascii, hasText } from '../decode/bytes.ts';
import type { OpenClip } from './clip.ts';

/** Enough for the signatures of all of them. */
const HEAD_BYTES = 64;

/** EBML, the frame of Matroska and WebM (RFC 8794, 11.2.1). */
const EBML = [0x1a, 0x45, 0xdf, 0xa3];

const animationType = (head: Uint8Array): string | undefined => {
  if (hasText(head, 0, 'GIF8')) return 'image/gif';
  if (hasText(head, 0, 'RIFF') && hasText(head, 8, 'WEBP')) return 'image/webp';
  if (hasText(head, 1, 'PNG')) return 'image/png';
  if (hasText(head, 4, 'ftyp') && ['avis', 'avif'].includes(ascii(head, 8, 4))) return 'image/avif';
  return undefined;
};

/** An ISO base media file begins with one of these boxes; old MOV files have no `ftyp`. */
const isFilm = (head: Uint8Array): boolean =>
  EBML.every((byte, at) => head[at] === byte) ||
  ['ftyp', 'moov', 'mdat', 'wide', 'free', 'skip'].some((box) => hasText(head, 4, box));

/** @throws StudioError with the file's name and what to do. */
export const openClip = async (
  file: Blob,
  name: string,
  checkpoint: Checkpoint,
): Promise<OpenClip> => {
  const head = new Uint8Array(await file.slice(0, HEAD_BYTES).arrayBuffer());
  const type = animationType(head);
  if (type !== undefined) {
    const { openAnimation } = await import('./animation.ts');
    return openAnimation(file, type, name, checkpoint);
  }
  if (isFilm(head)) {
    const { openFilm } = await import('./film.ts');
    return openFilm(file, name, checkpoint);
  }
  throw new StudioError(
    'not-a-picture',
    `"${nameInText(name)}" is not a clip this studio reads (MP4, MOV, WebM, Matroska, or an animated GIF, WebP, PNG or AVIF).`,
    name,
  );
};
