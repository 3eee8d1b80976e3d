/** Finds the four corner marks. */
import type { StripLayout } from '../strip-layout.ts';
import type { StripSpec } from '../strip.ts';
import type { StripPlane } from './camera.ts';
import type { PhotoCorners, PhotoPixels, PhotoRefusal } from './photo-terms.ts';

export type Corners =
  | { readonly ok: true; readonly corners: PhotoCorners }
  | { readonly ok: false; readonly reason: PhotoRefusal; readonly corners?: PhotoCorners };

export const findCorners = (
  _pixels: PhotoPixels,
  _spec: StripSpec,
  _layout: StripLayout,
  _plane: StripPlane,
): Corners => ({ ok: false, reason: 'no-corners' });
