/**
 * Reads one straight-on photo of a failed print under its lens against the woven sheet: where each view shows, what
 * that says about pitch, skew and place, and where the print does not lie against the lens.
 */
import { gapAhead, tracedGap } from '../../lens/traced.ts';
import type { Homography } from '../../pitch/photo/camera.ts';
import { cameraAtDistance } from '../../pitch/photo/camera.ts';
import type { PhotoCorners, PhotoPixels } from '../../pitch/photo/photo-terms.ts';
import type { Estimate } from '../counts.ts';
import { printAcrossMm, printAlongMm } from '../fault.ts';
import type { PitchRead } from '../read-counts.ts';
import { pitchFrom, skewFrom } from '../read-counts.ts';
import type { SeenFrames } from '../seen.ts';
import { seenFrames } from '../seen.ts';
import type { Found } from './find-plane.ts';
import { WINDOWS, findPlane, layOut, settle } from './find-plane.ts';
import { liftedParts } from './lifted.ts';
import { PATTERNED, PLAIN, SPREADS, candidatesOf, patternOf, patterned } from './look.ts';
import type { Looked } from './look.ts';
import { softerBy } from './softer.ts';
import type { MendPhotoReading, MendPhotoRequest, ViewMap } from './terms.ts';
import { refuse } from './terms.ts';

/** Longest side at which photo and frames are compared, in places; a place is at least one rib. */
const LONGEST = 240;
/** Standard deviation of the camera’s sideways place, from corners and aim by hand, mm (our own value). */
const AIM_MM = 6;
/** Relative standard deviation of a distance that is only assumed (our own value). */
const DISTANCE_DOUBT = 0.15;

const ownCorners = ({ widthPx, heightPx }: PhotoPixels): PhotoCorners => [
  { xPx: 0, yPx: 0 },
  { xPx: widthPx, yPx: 0 },
  { xPx: widthPx, yPx: heightPx },
  { xPx: 0, yPx: heightPx },
];

/** Reads the photo, or says why it cannot be read. @param onProgress is called with 0 … 1. */
export const readMendPhoto = (
  request: MendPhotoRequest,
  onProgress: (share: number) => void = () => undefined,
): MendPhotoReading => {
  const { pixels, setup } = request;
  const corners = request.corners ?? ownCorners(pixels);
  const lying = setup.sheet.ribs === 'lying';
  const [acrossMm, alongMm] = [printAcrossMm(setup.sheet), printAlongMm(setup.sheet)];
  const [wide, high] = lying ? [alongMm, acrossMm] : [acrossMm, alongMm];
  const shrink = Math.min(LONGEST / Math.max(wide, high), 1 / setup.sheet.viewingPitchMm);
  const size = [Math.round(wide * shrink), Math.round(high * shrink)] as const;
  const straight = layOut(pixels, corners, size);
  if (straight === undefined) return refuse('corners');
  const { pattern } = patternOf(straight.photo, WINDOWS[0]);
  if (patterned(pattern).length < PATTERNED * pattern.length) return refuse('flat');
  onProgress(0.1);
  const frames = seenFrames(request.pictures, setup.sheet, ...size);
  const pictures = candidatesOf(frames, request.blur);
  onProgress(0.3);
  const first = findPlane(straight.photo, pictures, setup, (share) =>
    onProgress(0.3 + 0.4 * share),
  );
  if ('ok' in first) return first;
  const settled = settle(pixels, corners, straight, pictures[0]!, first, lying);
  const again = settled && findPlane(settled.photo, pictures, setup, () => onProgress(0.9));
  onProgress(1);
  const better =
    settled !== undefined &&
    again !== undefined &&
    !('ok' in again) &&
    again.fit.score >= first.fit.score;
  return better
    ? reading(request, again, settled.h, frames)
    : reading(request, first, straight.h, frames);
};

const reading = (
  request: MendPhotoRequest,
  { looked, fit }: Found,
  h: Homography,
  frames: SeenFrames,
): MendPhotoReading => {
  const { setup, pixels, blur } = request;
  const { lying } = frames;
  const { sheet, lens } = setup;
  const from = request.cameraMm ?? setup.distanceMm;
  const [acrossMm, alongMm] = [printAcrossMm(sheet), printAlongMm(sheet)];
  const camera = cameraOf(h, pixels, lying ? [alongMm, acrossMm] : [acrossMm, alongMm], from);
  const aside = lying ? camera.yMm : camera.xMm;
  const estimate = (value: number, sigma: number): Estimate => ({ value, plusMinus: 2 * sigma });
  // A wrong assumed distance changes the bands that a correct print would show.
  const doubt =
    request.cameraMm === undefined
      ? ((acrossMm / sheet.viewingPitchMm) * gapAhead(lens) * DISTANCE_DOUBT) / from
      : 0;
  const across = estimate(fit.across, Math.hypot(fit.sigmas[1], doubt));
  const skew = skewFrom(setup, estimate(fit.along, fit.sigmas[2]), camera.heightMm);
  const perEye = tracedGap(lens) / camera.heightMm;
  const off = (0.5 - fit.middle) * sheet.viewingPitchMm - sheet.offsetMm - aside * perEye;
  const offset = off - sheet.viewingPitchMm * Math.round(off / sheet.viewingPitchMm);
  const map = viewMap(looked);
  const told = map.trust.filter((trust) => trust > TOLD).length / map.trust.length;
  const spread = spreadOf(looked, map);
  return {
    ok: true,
    map,
    pitch: alongPrint(pitchFrom(setup, across, camera.heightMm, 0), skew.rad.value),
    skew: { ...skew, signKnown: true },
    offsetMm: estimate(offset, Math.hypot(fit.sigmas[0] * sheet.viewingPitchMm, AIM_MM * perEye)),
    extraSpread: SPREADS[spread] ?? 0,
    lifted: liftedParts(looked.grid, softerBy({ looked, plane: fit, frames, blur })),
    told,
    cautions: cautionsOf(request, told, Math.abs(aside) / from, across),
  };
};

/** The pitch along the print’s own edge instead of across the ribs: bands = W (1 / p_w − cos α / p_v). */
const alongPrint = ({ bands, viewingLpi }: PitchRead, skewRad: number): PitchRead => ({
  bands,
  viewingLpi: { ...viewingLpi, value: viewingLpi.value / Math.cos(skewRad) },
});

/** A cell with at least this trust shows its view. */
const TOLD = 0.4;

const cameraOf = (
  h: Homography,
  { widthPx, heightPx }: PhotoPixels,
  [wide, high]: readonly [number, number],
  fromMm: number,
) => {
  // From shares of the print to millimetres from its middle.
  const perMm = Float64Array.from(h, (value, i) => {
    if (i % 3 === 0) return value / wide;
    if (i % 3 === 1) return value / high;
    return value + h[i - 2]! / 2 + h[i - 1]! / 2;
  });
  const camera = cameraAtDistance(perMm, fromMm, widthPx, heightPx);
  return Number.isFinite(camera.heightMm) && camera.heightMm > 0
    ? camera
    : { xMm: 0, yMm: 0, heightMm: fromMm };
};

const viewMap = ({ cells, grid, pattern }: Looked): ViewMap => {
  const { likely, steps } = cells;
  const count = grid.columns * grid.rows;
  const [place, trust] = [new Float32Array(count), new Float32Array(count)];
  for (let i = 0; i < count; i += 1) {
    let [re, im] = [0, 0];
    for (let k = 0; k < steps; k += 1) {
      const angle = (2 * Math.PI * (k + 0.5)) / steps;
      re += likely[i * steps + k]! * Math.cos(angle);
      im += likely[i * steps + k]! * Math.sin(angle);
    }
    const u = Math.atan2(im, re) / (2 * Math.PI);
    place[i] = u - Math.floor(u);
    trust[i] = pattern[i]! > PLAIN ? Math.hypot(re, im) : 0;
  }
  return { columns: grid.columns, rows: grid.rows, place, trust };
};

/** Which of SPREADS explains the trusted cells best; a wider one must be clearly better. */
const spreadOf = ({ least }: Looked, { trust }: ViewMap): number => {
  const gains = least.map((one) => {
    const logs = Array.from(trust.keys())
      .filter((i) => trust[i]! > TOLD)
      .map((i) => Math.log(least[0]![i]! / one[i]!));
    return logs.reduce((sum, log) => sum + log, 0) / Math.max(1, logs.length);
  });
  let best = 0;
  gains.forEach((gain, i) => {
    if (gain > gains[best]! + 0.05) best = i;
  });
  return best;
};

const cautionsOf = (
  { cameraMm }: MendPhotoRequest,
  told: number,
  slant: number,
  across: Estimate,
): string[] => {
  const cautions: string[] = [];
  if (cameraMm === undefined)
    cautions.push(
      'The distance of the camera is not known: the print’s own viewing distance is assumed, so the pitch is less certain.',
    );
  if (slant > 0.12)
    cautions.push(
      'The photo was taken from the side: the place of the print under the ribs is less certain.',
    );
  if (told < 0.3)
    cautions.push(
      'Less than a third of the picture shows clearly which view it is; the rest is too plain or too alike.',
    );
  if (Math.abs(across.value) > 6)
    cautions.push('There are many bands in the photo: count a few of them by eye to be sure.');
  return cautions;
};
