/** From the strip's plane in the photo to the pitch: sampling, the fit, its doubt. */
import { MM_PER_INCH } from '../../units/units.ts';
import type { StripLayout } from '../strip-layout.ts';
import type { CameraAt, Homography, StripPlane } from './camera.ts';
import { cameraAtDistance, distanceFromPerspective, toPhoto } from './camera.ts';
import type { FringeFit, FringeRow } from './fringe-fit.ts';
import { fitFringes, searchFringes } from './fringe-fit.ts';
import type {
  BandFit,
  PhaseFit,
  PhotoCorners,
  PhotoReading,
  PhotoReadRequest,
} from './photo-terms.ts';
import { phaseSlope } from './phase-fit.ts';
import { refuse } from './refusals.ts';
import type { PlaneBox, SampledBand, SampledStrip } from './sample.ts';
import { PLACES, sampleStrip } from './sample.ts';
import { upperMedian } from '../../numeric/median.ts';
import { labelsSay } from './labels.ts';
import type { View } from './view.ts';
import { viewThrough } from './view.ts';

/** The lens may be off its label by this share, either way. */
const LENS_REACH = 0.025;
/** tan of the largest skew that is looked for. */
const SKEW_REACH = 0.03;

/** Camera and where its distance came from, with the doubt of 1 / distance. */
interface Stand {
  readonly camera: CameraAt;
  readonly slantMm: number;
  readonly from: 'typed' | 'perspective' | 'assumed';
  readonly doubtOfInverse: number;
}

const standOf = (
  { pixels, strip, lens, readAtMm }: PhotoReadRequest,
  plane: StripPlane,
  corners: PhotoCorners,
  h: Homography,
): Stand => {
  const at = (slantMm: number, from: Stand['from'], doubt: number): Stand => ({
    camera: cameraAtDistance(h, slantMm, pixels.widthPx, pixels.heightPx),
    slantMm,
    from,
    doubtOfInverse: doubt / slantMm,
  });
  // A distance measured by hand: good to half a centimetre or a part in a hundred (ours, no source).
  if (readAtMm !== undefined) return at(readAtMm, 'typed', Math.hypot(5 / readAtMm, 0.01));
  const told = distanceFromPerspective(
    plane,
    corners,
    pixels.widthPx,
    pixels.heightPx,
    0.3 * lens.pitchMm,
  );
  if (told !== undefined && told.doubt < 0.15)
    return at(told.distanceMm, 'perspective', told.doubt);
  // Asked for from the reading distance: half or twice that is within three of this (ours).
  return at(strip.readFromMm, 'assumed', 0.3);
};

/** The rows of the fit: what is known of the phase, weights without what was clipped or shone. */
const fringeRows = (
  bands: readonly SampledBand[],
  bandsLpi: readonly number[],
  view: View,
  { camera }: Stand,
): FringeRow[] =>
  bands.flatMap(({ rows }, band) =>
    rows.map((row) => {
      const linesPerMm = bandsLpi[band]! / MM_PER_INCH;
      const b = (row.y - camera.yMm) / camera.heightMm;
      const known = row.x.map((x) => {
        const a = (x - camera.xMm) / camera.heightMm;
        // beside() is for a camera towards +a; seen from here the rib lies at −a of the camera.
        return (x + view.beside(-a, -b)) * linesPerMm;
      });
      const value = new Float64Array(PLACES);
      const weight = new Float64Array(PLACES);
      for (let i = 0; i < PLACES; i += 1) {
        value[i] = (row.light[i * 3]! + row.light[i * 3 + 1]! + row.light[i * 3 + 2]!) / 3;
        weight[i] = row.clipped[i]! > 0.3 || value[i]! > 1.35 ? 0 : 1;
      }
      return { band, y: row.y, x: row.x, lines: linesPerMm, known, value, weight };
    }),
  );

const outlineOf = (h: Homography, box: PlaneBox): PhotoCorners => [
  toPhoto(h, box.left, box.top),
  toPhoto(h, box.right, box.top),
  toPhoto(h, box.right, box.bottom),
  toPhoto(h, box.left, box.bottom),
];

/** Lens lines to the mm on the print, and its lines to the inch as seen from the reading distance. */
const viewingLpi = (f: number, v: number, gapMm: number, readFromMm: number): number =>
  (MM_PER_INCH * Math.hypot(f, v)) / (1 + gapMm / readFromMm);

export const readPlane = (
  request: PhotoReadRequest,
  layout: StripLayout,
  plane: StripPlane,
  corners: PhotoCorners,
  h: Homography,
  pxPerMm: number,
  onShare: (share: number) => void,
): PhotoReading => {
  const { pixels, strip, lens } = request;
  const sampled: SampledStrip = sampleStrip(
    pixels,
    h,
    strip,
    layout,
    plane,
    pxPerMm,
    lens.pitchMm,
    (share) => onShare(0.6 * share),
  );
  const labels = labelsSay(pixels, h, strip, plane, pxPerMm);
  if (labels === 'others') return refuse('wrong-strip', corners);
  const view = viewThrough(lens);
  const stand = standOf(request, plane, corners, h);
  const rows = fringeRows(sampled.bands, strip.bandsLpi, view, stand);
  const count = strip.bandsLpi.length;

  const lost = (band: number) => {
    const mine = rows.filter((row) => row.band === band);
    return (
      1 -
      mine.reduce((s, row) => s + row.weight.reduce((t, w) => t + w, 0), 0) / (mine.length * PLACES)
    );
  };
  const bright = strip.bandsLpi.map((_, band) => lost(band));
  const readable = new Set(bright.flatMap((share, band) => (share < 0.35 ? [band] : [])));
  if (readable.size < Math.max(3, 0.6 * count)) return refuse('glare', corners);

  const widthMm = sampled.bands[0]!.box.right - sampled.bands[0]!.box.left;
  const nominal = 1 / lens.pitchMm;
  // Marks under ribs appear to jump by up to a rib.
  const cornerDoubtMm = 0.02 + 0.1 * lens.pitchMm;
  const peaks = searchFringes(
    rows.filter(({ band }) => readable.has(band)),
    { middle: nominal, reach: LENS_REACH * nominal, step: 0.2 / widthMm },
    { middle: 0, reach: SKEW_REACH * nominal, step: 0.2 / plane.heightMm },
    6,
  );
  onShare(0.8);
  const fits = peaks
    .map((peak) => fitFringes(rows, count, readable, peak, { rounds: 5, cornerDoubtMm }))
    .filter((fit): fit is FringeFit => fit !== undefined)
    .sort((a, b) => b.explained - a.explained);
  const first = fits[0] && fitFringes(rows, count, readable, fits[0], { rounds: 8, cornerDoubtMm });
  if (first === undefined) return refuse('lens-turned', corners);
  const rival = fits.find(
    (fit) =>
      Math.abs(fit.f - first.f) * widthMm > 0.3 || Math.abs(fit.v - first.v) * plane.heightMm > 0.3,
  );
  if (first.amplitude < 0.02) return refuse('lens-turned', corners);
  if (first.explained < 0.5) return refuse('wrong-strip', corners);
  if (rival !== undefined && rival.explained > first.explained - 0.1 * (1 - first.explained) - 0.02)
    return refuse('no-fit', corners);

  const { fit, used } = withoutOutliers(rows, count, readable, first, cornerDoubtMm);
  onShare(0.95);
  const gap = view.gapMm;
  const pitchLpi = viewingLpi(fit.f, fit.v, gap, strip.readFromMm);
  const perF = viewingLpi(1, 0, gap, strip.readFromMm);
  const widthIn = widthMm / MM_PER_INCH;
  const bands = strip.bandsLpi.map((bandLpi, band): BandFit => {
    const one = fit.alone[band]!;
    const alone = perF * one.f * Math.sqrt(1 + (fit.v / fit.f) ** 2);
    const fittedFringes = (bandLpi - pitchLpi) * widthIn;
    const fringes = (bandLpi - alone) * widthIn;
    return {
      band,
      bandLpi,
      fringes,
      sigma: Math.sqrt(one.varF) * widthMm,
      fittedFringes,
      residual: fringes - fittedFringes,
      outline: outlineOf(h, sampled.bands[band]!.box),
      used: used.has(band),
      ...(used.has(band)
        ? {}
        : {
            why: readable.has(band) ? 'Does not fit the other bands.' : 'Covered by a reflection.',
          }),
    };
  });
  const phase = phaseOf(sampled, layout.phaseLpi, view, stand, fit, perF, pitchLpi, widthIn, h);
  // Doubts that no residual shows: where the camera stood, and the gap of this very sheet.
  const inverse = 1 / stand.slantMm;
  const byDistance = pitchLpi * gap * stand.doubtOfInverse;
  const byGap = pitchLpi * 0.03 * gap * Math.abs(inverse - 1 / strip.readFromMm);
  const byView = pitchLpi * gap * inverse * 0.01;
  // Marks seen through ribs may lie half a rib off at either side, which stretches every fringe count.
  const middleLpi = [...used].reduce((sum, band) => sum + strip.bandsLpi[band]!, 0) / used.size;
  const byMarks = (Math.abs(middleLpi - pitchLpi) * (0.1 + 0.6 * lens.pitchMm)) / widthMm;
  const few = 1 + 2 / used.size;
  const byFringes = perF * Math.sqrt(fit.varF) * few;
  return {
    ok: true,
    pitchLpi,
    sigmaLpi: Math.hypot(byFringes, byDistance, byGap, byView, byMarks),
    skewRad: Math.atan(fit.v / fit.f),
    skewSigmaRad: Math.hypot(
      (Math.sqrt(fit.varV) * few) / fit.f,
      (0.3 * lens.pitchMm * Math.abs(middleLpi - pitchLpi)) / MM_PER_INCH / fit.f / plane.heightMm,
      // Paper stretches along the ribs otherwise than across, by some parts in a thousand.
      (0.003 * fit.v) / fit.f,
      1e-5,
    ),
    cornersFound: corners,
    bands,
    cameraMm: stand.slantMm,
    cameraFrom: stand.from,
    phase,
    cautions: cautionsOf(
      stand,
      phase,
      (layout.phaseLpi - pitchLpi) * widthIn,
      used.size,
      count,
      labels === 'these',
    ),
  };
};

const LEAST_MODULATION = 0.05;

const phaseOf = (
  sampled: SampledStrip,
  phaseLpi: number,
  view: View,
  { camera }: Stand,
  fit: FringeFit,
  perF: number,
  pitchLpi: number,
  widthIn: number,
  h: Homography,
): PhaseFit => {
  const lines = phaseLpi / MM_PER_INCH;
  const slope = phaseSlope(sampled.phase, (x, y) => {
    const a = (x - camera.xMm) / camera.heightMm;
    const b = (y - camera.yMm) / camera.heightMm;
    return (x + view.beside(-a, -b)) * lines - fit.f * x - fit.v * y;
  });
  const widthMm = widthIn * MM_PER_INCH;
  const outline = outlineOf(h, sampled.phase.box);
  const fringes = (phaseLpi - pitchLpi - perF * slope.moreF) * widthIn;
  const sigma = slope.sigmaF * widthMm;
  return slope.modulation < LEAST_MODULATION
    ? { fringes, sigma, outline, used: false, why: 'Its colours are too pale to read.' }
    : { fringes, sigma, outline, used: true };
};

const cautionsOf = (
  stand: Stand,
  phase: PhaseFit,
  expected: number,
  used: number,
  count: number,
  labelsRead: boolean,
): string[] => [
  ...(labelsRead
    ? []
    : ['The labels could not be read in the photo: make sure that it shows the strip woven last.']),
  ...(stand.from === 'assumed'
    ? [
        'The distance of the camera is not known and was taken to be the reading distance: type it for a smaller ±.',
      ]
    : []),
  ...(stand.from === 'perspective'
    ? ['The distance of the camera was judged by perspective: type it for a smaller ±.']
    : []),
  ...(phase.used && Math.abs(phase.fringes - expected) > 3 * phase.sigma + 0.1
    ? ['The colours of the phase strip say otherwise than the bands: check the photo by eye.']
    : []),
  ...(used < count ? [`${count - used} of ${count} bands could not be used.`] : []),
];

/** Fits again without bands that stand out by far, as long as most remain. */
const withoutOutliers = (
  rows: readonly FringeRow[],
  count: number,
  readable: ReadonlySet<number>,
  first: FringeFit,
  cornerDoubtMm: number,
): { readonly fit: FringeFit; readonly used: ReadonlySet<number> } => {
  const usual = upperMedian([...readable].map((band) => first.alone[band]!.rms));
  const used = new Set([...readable].filter((band) => first.alone[band]!.rms < 3 * usual + 0.01));
  if (used.size === readable.size || used.size < Math.max(3, 0.6 * count))
    return { fit: first, used: readable };
  const again = fitFringes(rows, count, used, first, { rounds: 8, cornerDoubtMm });
  return again === undefined ? { fit: first, used: readable } : { fit: again, used };
};
