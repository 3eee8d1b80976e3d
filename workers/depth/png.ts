/** Reads depths from PNG: 8 or 16 bits, the first channel. */
import { decode } from 'fast-png';
import type { DepthMap } from '../../src/core/frames/synth/depth-map.ts';
import { checkSize, unsupported } from '../decode/image.ts';
import { pngSize, readPngHeader } from '../decode/png-header.ts';
import { checkPngInflates } from '../decode/png-inflate.ts';
import { checkPngProfile } from '../decode/profile-size.ts';
import { SAVE_AS, firstOf } from './common.ts';

export const fromPng = async (bytes: Uint8Array<ArrayBuffer>, name: string): Promise<DepthMap> => {
  checkSize(pngSize(bytes, name), name);
  const header = readPngHeader(bytes, name);
  checkPngProfile(header, name);
  await checkPngInflates(bytes, header, name);
  const { width, height, data, channels, depth, palette } = decode(bytes, { checkCrc: true });
  if (palette !== undefined)
    throw unsupported(name, 'has a palette of colours, which are not depths', SAVE_AS);
  const size = { widthPx: width, heightPx: height };
  if (depth < 8) throw unsupported(name, `has ${depth} bits, too few steps for depths`, SAVE_AS);
  // An 8-bit picture may come clamped; the numbers are the same.
  const values =
    data instanceof Uint16Array ? data : new Uint8Array(data.buffer, data.byteOffset, data.length);
  return { ...size, values: firstOf(values, channels), white: depth === 16 ? 65535 : 255 };
};
