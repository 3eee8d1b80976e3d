/**
 * The third way to read a strip: from a photo of it under the lens. Corner marks give the plane, the
 * plane the bands, the bands their fringes, and all fringes together one pitch and one skew.
 */
import { MM_PER_INCH } from '../../units/units.ts';
import { stripLayout } from '../strip-layout.ts';
import { homographyOf, stripPlane, toPhoto } from './camera.ts';
import type { Corners } from './find-marks.ts';
import { findCorners } from './find-marks.ts';
import type { PhotoReading, PhotoReadRequest } from './photo-terms.ts';
import { readPlane } from './read-plane.ts';
import { refuse } from './refusals.ts';

export type {
  BandFit,
  PhaseFit,
  PhotoCorners,
  PhotoPoint,
  PhotoReading,
  PhotoReadRequest,
} from './photo-terms.ts';

/**
 * Reads the pitch of a lens from one photo of the strip under it. Never throws for what is in the
 * photo: it refuses with a reason. Throws a RangeError for pixels that are not as long as they say.
 *
 * @param onProgress called with 0 … 1.
 */
export const readStripPhoto = (
  request: PhotoReadRequest,
  onProgress: (share: number) => void = () => undefined,
): PhotoReading => {
  const { pixels, strip } = request;
  if (pixels.data.length !== pixels.widthPx * pixels.heightPx * 4)
    throw new RangeError(
      `pixels: expected ${pixels.widthPx} × ${pixels.heightPx} × 4 values, received ${pixels.data.length}`,
    );
  const layout = stripLayout(strip);
  const plane = stripPlane(strip, layout);
  onProgress(0.02);
  const found: Corners =
    request.corners === undefined
      ? findCorners(pixels, strip, layout, plane)
      : { ok: true, corners: request.corners };
  if (!found.ok) return refuse(found.reason, found.corners);
  onProgress(0.3);
  const { corners } = found;
  const h = homographyOf(plane.corners, corners);
  if (h === undefined) return refuse('no-corners', corners);
  // A millimetre in the middle, the way it is shorter.
  const [middle, beside, under] = [toPhoto(h, 0, 0), toPhoto(h, 1, 0), toPhoto(h, 0, 1)];
  const pxPerMm = Math.min(
    Math.hypot(beside.xPx - middle.xPx, beside.yPx - middle.yPx),
    Math.hypot(under.xPx - middle.xPx, under.yPx - middle.yPx),
  );
  const ribMm = MM_PER_INCH / strip.lensLpi;
  if (!(pxPerMm * ribMm >= LEAST_PX_A_RIB && pxPerMm >= LEAST_PX_A_MM))
    return refuse('too-small', corners);
  const reading = readPlane(request, layout, plane, corners, h, pxPerMm, (share) =>
    onProgress(0.3 + 0.7 * share),
  );
  onProgress(1);
  return reading;
};

/** Fewer, and ribs alias into fringes of their own (ours: two is the sampling theorem's limit). */
const LEAST_PX_A_RIB = 2;
/** Fewer, and the white between the bands, a millimetre wide, is no longer seen by itself. */
const LEAST_PX_A_MM = 3;
