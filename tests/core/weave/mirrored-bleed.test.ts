/** A bleed past the edge of a frame, against the extension of pictures in libvips. */
import sharp from 'sharp';
import { describe, expect, test } from 'vitest';
import type { SourceImage } from '../../../src/core/weave/reduce.ts';
import { reduceFrame } from '../../../src/core/weave/reduce.ts';
import { grain, sheet, whole } from './grain.ts';

describe('a bleed that the frame does not reach', () => {
  const image = grain(120, 150);
  const mirror = { left: true, top: true, right: true, bottom: true };
  const room = 12;
  const grown = { left: -room, top: -room, width: 120 + 2 * room, height: 150 + 2 * room };

  test.each(['upright', 'lying'] as const)(
    'is the frame’s edge mirrored, as libvips extends a picture: %s ribs',
    async (ribs) => {
      const { data } = await sharp(Buffer.from(image.data.buffer), {
        raw: { width: 120, height: 150, channels: 3 },
      })
        .extend({ top: room, bottom: room, left: room, right: room, extendWith: 'mirror' })
        .raw()
        .toBuffer({ resolveWithObject: true });
      const spec = { ...sheet, ribs };
      const extended: SourceImage = { ...image, widthPx: 144, heightPx: 174, data };
      const mirrored = reduceFrame(image, spec, { ...grown, mirror });
      const wanted = reduceFrame(extended, spec, whole(extended));
      const widest = mirrored.pixels.reduce(
        (most, value, i) => Math.max(most, Math.abs(value - wanted.pixels[i]!)),
        0,
      );
      // The same sums in another order.
      expect(widest).toBeLessThanOrEqual(1);
    },
  );

  test('stays paper on a side where it is not asked for', () => {
    const { pixels, columns } = reduceFrame(image, sheet, {
      ...grown,
      mirror: { ...mirror, left: false },
    });
    expect([...pixels.subarray(0, 3)]).toEqual([65535, 65535, 65535]);
    expect([...pixels.subarray((columns - 1) * 3, columns * 3)]).not.toEqual([65535, 65535, 65535]);
  });
});
