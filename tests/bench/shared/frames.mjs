// @ts-check
/** Frames for the benches: the glasshouse of the demo, enlarged to the size that is asked for. */
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import sharp from 'sharp';
import { at } from '../../tools/house.mjs';

/**
 * Writes `count` PNG files of the demo's frames at the given size.
 * @param {{ folder: string, count: number, width: number, height: number }} wanted
 * @returns {Promise<string[]>} their paths, in order.
 */
export const makeFrames = async ({ folder, count, width, height }) => {
  mkdirSync(folder, { recursive: true });
  return Promise.all(
    Array.from({ length: count }, async (_, index) => {
      const number = String(index + 1).padStart(2, '0');
      const path = join(folder, `frame_${number}.png`);
      await sharp(at('demo-scenes/glasshouse', `glasshouse_${number}.png`))
        .resize(width, height, { kernel: 'lanczos3', fit: 'fill' })
        .png({ compressionLevel: 6 })
        .toFile(path);
      return path;
    }),
  );
};
