/** Reads the numbers of a depth map from its file, never by way of colours. */
import { StudioError } from '../../src/contract/errors.ts';
import type { FileToRead } from '../../src/contract/frames.ts';
import type { DepthMap } from '../../src/core/frames/synth/depth-map.ts';
import { nameInText } from '../../src/core/names/shown.ts';
import { asStudioError, unsupported } from '../decode/image.ts';
import { sniff } from '../decode/sniff.ts';
import { SAVE_AS } from './common.ts';

/** Throws StudioError that names the file and says what to do. */
export const readDepthFile = async ({ file, name }: FileToRead): Promise<DepthMap> => {
  const bytes = new Uint8Array(
    await file.arrayBuffer().catch(() => {
      throw new StudioError(
        'file-gone',
        `"${nameInText(name)}" can no longer be read: it was moved, changed or deleted. Choose the depth map again.`,
        name,
      );
    }),
  );
  const { id, label } = sniff(bytes.subarray(0, 1024), name);
  try {
    if (id === 'png') return await (await import('./png.ts')).fromPng(bytes, name);
    if (id === 'tiff') return await (await import('./tiff.ts')).fromTiff(bytes, name);
    if (id === 'exr') return (await import('./exr.ts')).fromExr(bytes, name);
  } catch (error) {
    throw asStudioError(error, name, label);
  }
  throw unsupported(name, `is ${label}, whose compression changes depths`, SAVE_AS);
};
