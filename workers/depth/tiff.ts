/** Depths in TIFF: 8, 16 bits or floating point, the first channel as it stands. */
import { fromArrayBuffer } from 'geotiff';
import type { DepthMap } from '../../src/core/frames/synth/depth-map.ts';
import { checkSize, unsupported } from '../decode/image.ts';
import { SAVE_AS } from './common.ts';

export const fromTiff = async (bytes: Uint8Array, name: string): Promise<DepthMap> => {
  const tiff = await fromArrayBuffer(bytes.slice().buffer);
  const image = await tiff.getImage();
  const size = { widthPx: image.getWidth(), heightPx: image.getHeight() };
  checkSize(size, name);
  const [values] = (await image.readRasters({ samples: [0] })) as unknown as [unknown];
  if (values instanceof Uint8Array) return { ...size, values, white: 255 };
  if (values instanceof Uint16Array) return { ...size, values, white: 65535 };
  if (values instanceof Float32Array) return { ...size, values, white: 1 };
  throw unsupported(name, 'holds numbers of an unusual size', SAVE_AS);
};
