/** Depth maps are read back by three's EXRLoader, which is not ours, and by the studio's own reader of depth maps. */
import { FloatType } from 'three';
import { EXRLoader } from 'three/addons/loaders/EXRLoader.js';
import { expect, test } from 'vitest';
import { depthExr } from '../../../src/core/encode/exr-depth.ts';
import { readDepthFile } from '../../../workers/depth/index.ts';

const [width, height] = [5, 3];
const depths = Float32Array.from({ length: width * height }, (_, at) =>
  at === 7 ? Infinity : 0.25 + at / 3,
);

test('every depth comes back as it went, the upper row first', async () => {
  const bytes = depthExr(width, height, depths);
  const loader = new EXRLoader();
  loader.type = FloatType;
  // It knows no channel of depth, so it is handed the same file with the name of its grey one.
  const grey = bytes.slice();
  const named = Buffer.from(grey.buffer).indexOf('Z\0\x02\0\0\0', 0, 'latin1');
  grey[named] = 'Y'.charCodeAt(0);
  const read = loader.parse(grey.buffer);
  expect([read.width, read.height]).toEqual([width, height]);
  const data = read.data as Float32Array;
  const channels = data.length / depths.length;
  // The loader gives rows bottom first.
  for (let y = 0; y < height; y += 1)
    for (let x = 0; x < width; x += 1)
      expect(data[channels * ((height - 1 - y) * width + x)]).toBe(depths[y * width + x]);
  const own = await readDepthFile({ key: '', name: 'depth.exr', file: new Blob([bytes]) });
  expect([...own.values]).toEqual([...depths]);
});

test('a wrong number of depths is refused', () => {
  expect(() => depthExr(2, 2, new Float32Array(3))).toThrow(/expected 2 × 2, received 3/);
});
