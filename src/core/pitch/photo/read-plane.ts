/** From the plane of the strip in the photo to the pitch: sampling, fit, uncertainty. */
import { MM_PER_INCH } from '../../units/units.ts';
import type { StripLayout } from '../strip-layout.ts';
import type { CameraAt, Homography, StripPlane } from './camera.ts';
import { cameraAtDistance, distanceFromPerspective, toPhoto } from './camera.ts';
import type { Chosen } from './choose-fit.ts';
import { chooseFit } from './choose-fit.ts';
import type { FringeRow } from './fringe-fit.ts';
import type {
  BandFit,
  PhaseFit,
  PhotoCorners,
  PhotoReading,
  PhotoReadRequest,
} from './photo-terms.ts';
import { phaseSlope } from './phase-fit.ts';
import { edgeSigmaPx } from './pieces.ts';
import { refuse } from './refusals.ts';
import type { PlaneBox, SampledBand, SampledStrip, StripInPhoto } from './sample.ts';
import { PLACES, sampleStrip } from './sample.ts';
import { labelsSay } from './labels.ts';
import type { View } from './view.ts';
import { viewThrough } from './view.ts';

/** The camera, where its distance came from, and the standard deviation of 1 / distance. */
interface Stand {
  readonly camera: CameraAt;
  readonly slantMm: number;
  readonly from: 'typed' | 'perspective' | 'assumed';
  readonly doubtOfInverse: number;
}

/** Relative standard deviation of a distance measured by hand: 5 mm and one per cent (our own values, no source). */
const byHand = (distanceMm: number): number => Math.hypot(5 / distanceMm, 0.01);

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
  if (readAtMm !== undefined) return at(readAtMm, 'typed', byHand(readAtMm));
  const { widthPx, heightPx } = pixels;
  const told = distanceFromPerspective(plane, corners, widthPx, heightPx, 0.3 * lens.pitchMm);
  if (told !== undefined && told.doubt < 0.15)
    return at(told.distanceMm, 'perspective', told.doubt);
  // The person was asked to stand at the reading distance: half or twice that is within three of this (our own
  // value).
  return at(strip.readFromMm, 'assumed', 0.3);
};

/** The rows of the fit: the known part of the phase, and no weight for clipped or glaring samples. */
const fringeRows = (
  bands: readonly SampledBand[],
  bandsLpi: readonly number[],
  view: View,
  camera: CameraAt,
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

/** Woven LPI at the reading distance, from the lens’s lines per mm on the print. */
const viewingLpi = (f: number, v: number, gapMm: number, readFromMm: number): number =>
  (MM_PER_INCH * Math.hypot(f, v)) / (1 + gapMm / readFromMm);

/** What was sampled from the photo, and where it was taken from. */
interface Shot {
  readonly request: PhotoReadRequest;
  readonly layout: StripLayout;
  readonly h: Homography;
  readonly sampled: SampledStrip;
  readonly view: View;
  readonly stand: Stand;
  readonly widthMm: number;
  readonly heightMm: number;
  /** Standard deviation of the sharpest edges, as a Gaussian. */
  readonly edgeMm: number;
}

/** The pitch that the bands agree on. */
interface Pitch extends Chosen {
  readonly pitchLpi: number;
  /** LPI for one line per mm of f. */
  readonly perF: number;
}

const pitchOf = ({ request: { strip }, view }: Shot, chosen: Chosen): Pitch => ({
  ...chosen,
  pitchLpi: viewingLpi(chosen.fit.f, chosen.fit.v, view.gapMm, strip.readFromMm),
  perF: viewingLpi(1, 0, view.gapMm, strip.readFromMm),
});

/** The result of each band alone, beside that of the common pitch. */
const bandFits = (
  { request: { strip }, h, sampled, widthMm }: Shot,
  { fit, readable, used, pitchLpi, perF }: Pitch,
): BandFit[] => {
  const widthIn = widthMm / MM_PER_INCH;
  return strip.bandsLpi.map((bandLpi, band): BandFit => {
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
            why: readable.has(band)
              ? 'Does not fit the other bands.'
              : 'Under a reflection, or beside the lens.',
          }),
    };
  });
};

const LEAST_MODULATION = 0.05;

const phaseOf = (
  { layout: { phaseLpi }, h, sampled, view, stand: { camera }, widthMm }: Shot,
  { fit, pitchLpi, perF }: Pitch,
): PhaseFit => {
  const lines = phaseLpi / MM_PER_INCH;
  const slope = phaseSlope(sampled.phase, (x, y) => {
    const a = (x - camera.xMm) / camera.heightMm;
    const b = (y - camera.yMm) / camera.heightMm;
    return (x + view.beside(-a, -b)) * lines - fit.f * x - fit.v * y;
  });
  const widthIn = widthMm / MM_PER_INCH;
  const outline = outlineOf(h, sampled.phase.box);
  const fringes = (phaseLpi - pitchLpi - perF * slope.moreF) * widthIn;
  const sigma = slope.sigmaF * (widthIn * MM_PER_INCH);
  return slope.modulation < LEAST_MODULATION
    ? { fringes, sigma, outline, used: false, why: 'Its colours are too pale to read.' }
    : { fringes, sigma, outline, used: true };
};

/** Share of an edge's width by which a mark may be misplaced (our own value, measured). */
const EDGE_SHARE = 0.25;

/** Standard deviations of pitch and skew: what the fit leaves open, and errors that no residual shows. */
const doubtsOf = (
  { request: { strip, lens }, view, stand, widthMm, heightMm, edgeMm }: Shot,
  { fit, used, pitchLpi, perF }: Pitch,
) => {
  // The place of the camera, and the gap of this sheet.
  const gap = view.gapMm;
  const inverse = 1 / stand.slantMm;
  const byDistance = (doubtOfInverse: number) => pitchLpi * gap * doubtOfInverse;
  const byGap = pitchLpi * 0.03 * gap * Math.abs(inverse - 1 / strip.readFromMm);
  const byView = pitchLpi * gap * inverse * 0.01;
  // Marks seen through ribs may lie half a rib off on each side, which stretches every fringe count; out of focus
  // they are found to a part of their edge's width.
  const middleLpi = [...used].reduce((sum, band) => sum + strip.bandsLpi[band]!, 0) / used.size;
  const marksMm = 0.1 + 0.6 * lens.pitchMm + EDGE_SHARE * edgeMm;
  const byMarks = (Math.abs(middleLpi - pitchLpi) * marksMm) / widthMm;
  // All marks to one side, as a lens over them moves them for a camera aside, looks like skew: bands change evenly
  // from top to bottom.
  const aside = gap * Math.abs(stand.camera.xMm / stand.camera.heightMm);
  const shiftMm = 0.02 + 0.1 * lens.pitchMm + EDGE_SHARE * edgeMm + 0.5 * aside;
  const change = (strip.bandsLpi.at(-1)! - strip.bandsLpi[0]!) / MM_PER_INCH / heightMm;
  const few = 1 + 2 / used.size;
  const byFringes = perF * Math.sqrt(fit.varF) * few;
  const besides = Math.hypot(byFringes, byGap, byView, byMarks);
  return {
    sigmaLpi: Math.hypot(besides, byDistance(stand.doubtOfInverse)),
    sigmaTypedLpi: Math.hypot(besides, byDistance(byHand(stand.slantMm) * inverse)),
    skewSigmaRad: Math.hypot(
      (Math.sqrt(fit.varV) * few) / fit.f,
      (0.3 * lens.pitchMm * Math.abs(middleLpi - pitchLpi)) / MM_PER_INCH / fit.f / heightMm,
      (shiftMm * change) / fit.f,
      // Paper stretches differently along the ribs and across, by some parts in a thousand.
      (0.003 * fit.v) / fit.f,
      1e-5,
    ),
  };
};

const cautionsOf = (
  { request: { strip }, layout, stand, widthMm }: Shot,
  { used, pitchLpi, bare }: Pitch,
  phase: PhaseFit,
  labelsRead: boolean,
): string[] => {
  const expected = (layout.phaseLpi - pitchLpi) * (widthMm / MM_PER_INCH);
  const count = strip.bandsLpi.length;
  return [
    ...(labelsRead
      ? []
      : [
          'The labels could not be read in the photo: make sure that it shows the strip woven last.',
        ]),
    ...(stand.from === 'assumed'
      ? [
          'The distance of the camera is not known and was assumed to be the reading distance: type it for a smaller ±.',
        ]
      : []),
    ...(stand.from === 'perspective'
      ? ['The distance of the camera was estimated from the perspective: type it for a smaller ±.']
      : []),
    ...(phase.used && Math.abs(phase.fringes - expected) > 3 * phase.sigma + 0.1
      ? ['The colours of the phase strip disagree with the bands: check the photo by eye.']
      : []),
    ...(bare > 0
      ? ['The lens does not cover all of the bands: lay it over their whole width.']
      : []),
    ...(used.size < count ? [`${count - used.size} of ${count} bands could not be used.`] : []),
  ];
};

/** Reads the pitch from the plane, or says why it cannot be read. @param onShare is called with 0 … 1. */
export const readPlane = (
  request: PhotoReadRequest,
  seen: StripInPhoto,
  onShare: (share: number) => void,
): PhotoReading => {
  const { layout, plane, corners, h, pxPerMm, small } = seen;
  const { pixels, strip, lens } = request;
  const { heightMm } = plane;
  const sampled = sampleStrip(pixels, strip, seen, lens.pitchMm, (share) => onShare(0.6 * share));
  const labels = labelsSay(pixels, h, strip, plane, pxPerMm);
  if (labels === 'others') return refuse('wrong-strip', corners);
  const view = viewThrough(lens);
  const stand = standOf(request, plane, corners, h);
  const widthMm = sampled.bands[0]!.box.right - sampled.bands[0]!.box.left;
  const rows = fringeRows(sampled.bands, strip.bandsLpi, view, stand.camera);
  const chosen = chooseFit(
    { rows, count: strip.bandsLpi.length, widthMm, heightMm, pitchMm: lens.pitchMm },
    () => onShare(0.8),
  );
  if ('refused' in chosen) return refuse(chosen.refused, corners, chosen.figure);
  onShare(0.95);
  const edgeMm = (edgeSigmaPx(small) * small.perPx) / pxPerMm;
  const shot: Shot = { request, layout, h, sampled, view, stand, widthMm, heightMm, edgeMm };
  const pitch = pitchOf(shot, chosen);
  const phase = phaseOf(shot, pitch);
  return {
    ok: true,
    pitchLpi: pitch.pitchLpi,
    skewRad: Math.atan(pitch.fit.v / pitch.fit.f),
    ...doubtsOf(shot, pitch),
    cornersFound: corners,
    bands: bandFits(shot, pitch),
    cameraMm: stand.slantMm,
    cameraFrom: stand.from,
    phase,
    cautions: cautionsOf(shot, pitch, phase, labels === 'these'),
  };
};
