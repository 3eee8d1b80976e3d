/** Reads depths from TIFF: 8 bits, 16 bits or floating point, the first channel. */
import { fromArrayBuffer } from 'geotiff';
import type { DepthMap } from '../../src/core/frames/synth/depth-map.ts';
import { checkSize, unsupported } from '../decode/image.ts';
import { checkTiffDirectories } from '../decode/tiff-directory.ts';
import { firstPage, readTiffFacts } from '../decode/tiff-facts.ts';
import { readSamples } from '../decode/tiff-samples.ts';
import { SAVE_AS, firstOf } from './common.ts';

export const fromTiff = async (bytes: Uint8Array, name: string): Promise<DepthMap> => {
  checkTiffDirectories(bytes, name);
  const { page, pages } = await firstPage(await fromArrayBuffer(bytes.slice().buffer));
  checkSize({ widthPx: page.getWidth(), heightPx: page.getHeight() }, name);
  const facts = await readTiffFacts(page, pages, bytes.length, name);
  const { widthPx, heightPx, photometric, bits, samples } = facts;
  if (photometric === 3)
    throw unsupported(name, 'has a palette of colours, which are not depths', SAVE_AS);
  if (bits < 8) throw unsupported(name, `has ${bits} bits, too few steps for depths`, SAVE_AS);
  const values = firstOf(await readSamples(page, facts, name), samples);
  if (values instanceof Uint8Array) return { widthPx, heightPx, values, white: 255 };
  return { widthPx, heightPx, values, white: values instanceof Uint16Array ? 65535 : 1 };
};
