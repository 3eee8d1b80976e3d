/** Colour profiles beyond all size: a few bytes that unfold to gigabytes, or gigabytes outright. */
import { Unzlib } from 'fflate';
import { StudioError } from '../../src/contract/errors.ts';
import { damaged } from './image.ts';
import type { PngHeader } from './png-header.ts';

/** Those for presses, with large tables, take a few megabytes. */
export const MOST_PROFILE_BYTES = 2 ** 24;

/** Small enough that deflate, at most 1032 to 1, cannot burst memory before it is counted. */
const PIECE_BYTES = 2 ** 12;

/** @throws StudioError `too-large` */
export const checkProfileSize = (bytes: number, name: string): void => {
  if (bytes <= MOST_PROFILE_BYTES) return;
  throw new StudioError(
    'too-large',
    `"${name}" carries a colour profile of more than ${MOST_PROFILE_BYTES / 2 ** 20} MB, larger than any that is in use. ` +
      'Export it again with an ordinary profile, or as sRGB.',
    name,
  );
};

/**
 * Unpacks the profile of an `iCCP` chunk up to the limit and keeps nothing: readers unpack all of it.
 * @throws StudioError `too-large`, or `damaged` where it does not unpack
 */
export const checkPngProfile = ({ chunks }: PngHeader, name: string): void => {
  const chunk = chunks.get('iCCP');
  if (chunk === undefined) return;
  let bytes = 0;
  const inflate = new Unzlib((piece) => {
    bytes += piece.length;
    checkProfileSize(bytes, name);
  });
  // Its name, a zero, a byte for the compression: PNG third edition, 11.3.2.3.
  const from = chunk.indexOf(0) + 2;
  try {
    for (let at = from; at < chunk.length; at += PIECE_BYTES)
      inflate.push(chunk.subarray(at, at + PIECE_BYTES));
  } catch (error) {
    if (error instanceof StudioError) throw error;
    throw damaged(name, 'its colour profile does not unpack');
  }
};
