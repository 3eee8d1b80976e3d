/**
 * The third way to read a strip: from a photo of it under the lens. Corner marks give the plane, the plane gives the
 * bands, the bands give fringes, and all fringes together give one pitch and one skew.
 */
import { MM_PER_INCH } from '../../units/units.ts';
import { stripLayout } from '../strip-layout.ts';
import { homographyOf, stripPlane, toPhoto } from './camera.ts';
import type { Corners } from './find-marks.ts';
import { findCorners } from './find-marks.ts';
import type { PhotoReading, PhotoReadRequest } from './photo-terms.ts';
import { smallGrey } from './pieces.ts';
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
 * Reads the pitch of a lens from one photo of the strip under it. Whatever the photo shows, it does not throw but
 * refuses with a reason.
 * @param onProgress is called with 0 … 1.
 * @throws RangeError for pixels of the wrong length.
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
  const small = smallGrey(pixels);
  const found: Corners =
    request.corners === undefined
      ? findCorners(small, strip, layout, plane)
      : { ok: true, corners: request.corners };
  if (!found.ok) return refuse(found.reason, found.corners);
  onProgress(0.3);
  const { corners } = found;
  const h = homographyOf(plane.corners, corners);
  if (h === undefined) return refuse('no-corners', corners);
  // Pixels per mm in the middle, in the direction with fewer.
  const [middle, beside, under] = [toPhoto(h, 0, 0), toPhoto(h, 1, 0), toPhoto(h, 0, 1)];
  const pxPerMm = Math.min(
    Math.hypot(beside.xPx - middle.xPx, beside.yPx - middle.yPx),
    Math.hypot(under.xPx - middle.xPx, under.yPx - middle.yPx),
  );
  const ribMm = MM_PER_INCH / strip.lensLpi;
  if (!(pxPerMm * ribMm >= LEAST_PX_A_RIB && pxPerMm >= LEAST_PX_A_MM))
    return refuse('too-small', corners);
  const reading = readPlane(request, { layout, plane, corners, h, pxPerMm, small }, (share) =>
    onProgress(0.3 + 0.7 * share),
  );
  onProgress(1);
  return reading;
};

/** With fewer, ribs alias into fringes of their own (our own value; two is the limit of the sampling theorem). */
const LEAST_PX_A_RIB = 2;
/** With fewer, the white between the bands, a millimetre wide, is not seen by itself. */
const LEAST_PX_A_MM = 3;
