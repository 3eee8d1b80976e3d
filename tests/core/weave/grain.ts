/** A small sheet and a picture of noise, for tests of what is sampled. */
import type { SourceImage } from '../../../src/core/weave/reduce.ts';
import type { SheetSpec } from '../../../src/core/weave/sheet-spec.ts';

export const sheet: SheetSpec = {
  widthDots: 720,
  heightDots: 900,
  acrossDpi: 720,
  alongDpi: 720,
  ribs: 'upright',
  viewingPitchMm: 0.4239,
  lensPitchMm: 0.4239,
  offsetMm: 0,
  viewSlots: 12,
  columns: 'blended',
};

export const grain = (widthPx: number, heightPx: number, channels: 3 | 4 = 3): SourceImage => ({
  widthPx,
  heightPx,
  channels,
  encoding: 'srgb8',
  data: Uint8Array.from(
    { length: widthPx * heightPx * channels },
    (_, i) => (Math.imul(i + 7, 2654435761) >>> 11) & 255,
  ),
});

export const whole = (image: SourceImage) => ({
  left: 0,
  top: 0,
  width: image.widthPx,
  height: image.heightPx,
});
