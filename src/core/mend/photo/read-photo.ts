/**
 * One photo of the failed print under its lens, straight on, against the sheet the studio wove: where
 * each view shows, and from that what is wrong with pitch, skew and place, and where the print does not
 * lie against the lens.
 */
import { opticalGap } from '../../lens/lens.ts';
import type { Blur } from '../../lens/mix.ts';
import type { Homography } from '../../pitch/photo/camera.ts';
import { cameraAtDistance, homographyOf, toPhoto } from '../../pitch/photo/camera.ts';
import type { PhotoCorners, PhotoPixels } from '../../pitch/photo/photo-terms.ts';
import type { Estimate } from '../counts.ts';
import { printAcrossMm, printAlongMm } from '../fault.ts';
import type { PitchRead } from '../read-counts.ts';
import { pitchFrom, skewFrom } from '../read-counts.ts';
import { seenFrames } from '../seen.ts';
import type { CellGrid, Planes } from './cells.ts';
import { cellGrid, cellMiddle, photoSums, pictureAt, straightened, unexplained } from './cells.ts';
import { liftedParts } from './lifted.ts';
import type { PlaneCells, PlaneFit } from './plane-fit.ts';
import { fitPlane } from './plane-fit.ts';
import { cornerShifts } from './settle.ts';
import type { MendPhotoReading, MendPhotoRequest, ViewMap } from './terms.ts';
import { refuse } from './terms.ts';

/** Longest side at which photo and frames are compared, in places; a place covers a rib at least. */
const LONGEST = 240;
/** Windows in places: wide ones tell views apart best, narrow ones follow many bands. */
const WINDOWS = [14, 9] as const;
/** Spreads beyond the plan that are tried, shares of the pitch. */
const SPREADS = [0, 0.3, 0.6] as const;
/** A place of the picture counts as one sample in so many: neighbours are alike (ours). */
const ALIKE = 10;
/** Cells with less pattern than this, a standard deviation of brightness, are plain. */
const PLAIN = 0.012;
/** A cell tells its view where it is so sure, in nats above an even guess. */
const TELLS = 0.7;
/** How well a hand drags corners and aims: of the camera's place sideways, one sigma, mm (ours). */
const AIM_MM = 6;
/** Of the distance where it is only assumed, relative, one sigma (ours). */
const DISTANCE_DOUBT = 0.15;

interface Looked {
  readonly cells: PlaneCells;
  readonly grid: CellGrid;
  /** Mean square left unexplained by the best step of u, for each of SPREADS, and by nothing. */
  readonly least: readonly Float32Array[];
  readonly pattern: Float32Array;
}

const ownCorners = ({ widthPx, heightPx }: PhotoPixels): PhotoCorners => [
  { xPx: 0, yPx: 0 },
  { xPx: widthPx, yPx: 0 },
  { xPx: widthPx, yPx: heightPx },
  { xPx: 0, yPx: heightPx },
];

const UNIT = [
  [0, 0],
  [1, 0],
  [1, 1],
  [0, 1],
] as const;

/** Whether the corners run round a picture, clockwise, none in line with two others. */
const runRound = (corners: PhotoCorners): boolean =>
  corners.every((here, i) => {
    const [before, after] = [corners[(i + 3) % 4]!, corners[(i + 1) % 4]!];
    const turn =
      (here.xPx - before.xPx) * (after.yPx - here.yPx) -
      (here.yPx - before.yPx) * (after.xPx - here.xPx);
    return turn > 25;
  });

/** @param onProgress is called with 0 … 1. */
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
  const pictures = candidatesOf(request, ...size);
  onProgress(0.3);
  const first = findPlane(straight.photo, pictures, setup, (share) =>
    onProgress(0.3 + 0.4 * share),
  );
  if ('ok' in first) return first;
  const settled = settle(pixels, corners, straight, pictures[0]!, first, lying);
  const again = settled && findPlane(settled.photo, pictures, setup, () => onProgress(0.9));
  onProgress(1);
  if (
    settled === undefined ||
    again === undefined ||
    'ok' in again ||
    again.fit.score < first.fit.score
  )
    return reading(request, first.looked, first.fit, straight.h, lying);
  return reading(request, again.looked, again.fit, settled.h, lying);
};

interface Straight {
  readonly photo: Planes;
  readonly h: Homography;
}

const layOut = (
  pixels: PhotoPixels,
  corners: PhotoCorners,
  [width, height]: readonly [number, number],
): Straight | undefined => {
  const h = runRound(corners) ? homographyOf(UNIT, corners) : undefined;
  return h === undefined ? undefined : { h, photo: straightened(pixels, h, width, height) };
};

interface Found {
  readonly looked: Looked;
  readonly fit: PlaneFit;
}

/** The plane, by wide windows or by narrow ones; or why there is none. */
const findPlane = (
  photo: Planes,
  pictures: readonly (readonly Planes[])[],
  { sheet }: MendPhotoRequest['setup'],
  onProgress: (share: number) => void,
): Found | MendPhotoReading => {
  let refusal: MendPhotoReading | undefined;
  for (const [round, window] of WINDOWS.entries()) {
    const looked = look(photo, pictures, window, sheet.ribs === 'lying');
    const told = tells(looked);
    const fit = told === undefined ? fitPlane(looked.cells, sheet.viewSlots) : undefined;
    onProgress((round + 1) / WINDOWS.length);
    if (fit === undefined) refusal ??= told;
    else if (fit.score < LEAST_SCORE) refusal ??= refuse('no-match');
    else if (fit.rival !== undefined) refusal = refuse('two-ways');
    else return { looked, fit };
  }
  return refusal ?? refuse('no-match');
};

/** Less than this, in places, is not worth another look. */
const SETTLED = 0.25;

/** The photo with its corners settled; undefined where they lie well, or where nothing tells. */
const settle = (
  pixels: PhotoPixels,
  corners: PhotoCorners,
  { photo }: Straight,
  pictures: readonly Planes[],
  { fit }: Found,
  lying: boolean,
): Straight | undefined => {
  const { width, height } = photo;
  let [now, at] = [photo, corners];
  let moved = false;
  const wanted = pictureOf(pictures, fit, width, height, lying);
  for (let round = 0; round < 2; round += 1) {
    const shifts = cornerShifts(now, wanted);
    if (shifts === undefined || Math.max(...shifts.map((one) => Math.hypot(...one))) < SETTLED)
      break;
    const h = homographyOf(UNIT, at);
    if (h === undefined) break;
    at = shifts.map(([x, y], i) =>
      toPhoto(h, UNIT[i]![0] + x / width, UNIT[i]![1] + y / height),
    ) as unknown as PhotoCorners;
    const next = layOut(pixels, at, [width, height]);
    if (next === undefined) break;
    [now, moved] = [next.photo, true];
  }
  return moved ? layOut(pixels, at, [width, height]) : undefined;
};

/** What the whole picture should look like under one plane: each place from the step of u it shows. */
const pictureOf = (
  pictures: readonly Planes[],
  { middle, across, along }: PlaneFit,
  width: number,
  height: number,
  lying: boolean,
): Planes => {
  const steps = pictures.length;
  const channels = [0, 1, 2].map((c) => {
    const out = new Float32Array(width * height);
    for (let y = 0; y < height; y += 1)
      for (let x = 0; x < width; x += 1) {
        const [right, down] = [(x + 0.5) / width - 0.5, (y + 0.5) / height - 0.5];
        const u = middle + (lying ? across * down + along * right : across * right + along * down);
        const step = Math.min(steps - 1, Math.floor((u - Math.floor(u)) * steps));
        out[y * width + x] = pictures[step]!.channels[c]![y * width + x]!;
      }
    return out;
  });
  return { width, height, channels: channels as unknown as Planes['channels'] };
};

/** A plane must be this much likelier than chance, in nats: e²⁰ planes are searched at most (ours). */
const LEAST_SCORE = 25;

/** For each spread, the picture at each step of u. */
const candidatesOf = (
  { pictures, setup, blur }: MendPhotoRequest,
  width: number,
  height: number,
): Planes[][] => {
  const frames = seenFrames(pictures, setup.sheet, width, height);
  const steps = Math.max(24, Math.min(48, 2 * pictures.length));
  return SPREADS.map((more) => {
    const wider: Blur = { spot: Math.hypot(blur.spot, more), dot: blur.dot };
    return Array.from({ length: steps }, (_, k) => pictureAt(frames, (k + 0.5) / steps, wider));
  });
};

/** Standard deviation of brightness in each cell. */
const patternOf = (photo: Planes, window: number) => {
  const grid = cellGrid(photo.width, photo.height, window, Math.ceil(window / 2));
  const sums = photoSums(photo, grid);
  const pattern = Float32Array.from({ length: grid.columns * grid.rows }, (_, i) => {
    const spread = sums.spread.reduce((sum, one) => sum + one[i]!, 0);
    return Math.sqrt(Math.max(0, spread) / (3 * window * window));
  });
  return { sums, pattern };
};

/** Cells with a pattern; fewer than this share of all are no picture to read. */
const PATTERNED = 0.15;
const patterned = (pattern: Float32Array): number[] =>
  Array.from(pattern.keys()).filter((i) => pattern[i]! > PLAIN);

const look = (
  photo: Planes,
  pictures: readonly (readonly Planes[])[],
  window: number,
  lying: boolean,
): Looked => {
  const { width, height } = photo;
  const { sums, pattern } = patternOf(photo, window);
  const { grid } = sums;
  const count = grid.columns * grid.rows;
  const steps = pictures[0]!.length;
  const left = pictures.map((candidates) => candidates.map((one) => unexplained(sums, one)));
  const least = left.map((each) =>
    Float32Array.from({ length: count }, (_, i) => Math.min(...each.map((one) => one[i]!))),
  );
  const samples = (window * window) / ALIKE;
  const likely = new Float32Array(count * steps);
  for (let i = 0; i < count; i += 1) {
    // Whatever the spread: each step at the one that suits it.
    const best = Math.min(...least.map((one) => one[i]!));
    let whole = 0;
    for (let k = 0; k < steps; k += 1) {
      let most = 0;
      for (const each of left) most = Math.max(most, (best / each[k]![i]!) ** (samples / 2));
      likely[i * steps + k] = most;
      whole += most;
    }
    for (let k = 0; k < steps; k += 1) likely[i * steps + k]! /= whole;
  }
  const [across, along] = [new Float32Array(count), new Float32Array(count)];
  for (let i = 0; i < count; i += 1) {
    const x = cellMiddle(i % grid.columns, window, grid.step, width);
    const y = cellMiddle(Math.floor(i / grid.columns), window, grid.step, height);
    [across[i], along[i]] = lying ? [y, x] : [x, y];
  }
  const overlap = (window / grid.step) ** 2;
  return { cells: { across, along, likely, steps, overlap }, grid, least, pattern };
};

/** Nats by which a cell is surer than an even guess. */
const sureness = ({ likely, steps }: PlaneCells, cell: number): number => {
  let sum = Math.log(steps);
  for (let k = 0; k < steps; k += 1) {
    const p = likely[cell * steps + k]!;
    if (p > 0) sum += p * Math.log(p);
  }
  return sum;
};

/** Reasons to give up before any plane is looked for; undefined when there are none. */
const tells = ({ cells, least, pattern, grid }: Looked): MendPhotoReading | undefined => {
  const seen = patterned(pattern);
  // Share of the pattern that even the best view leaves unexplained.
  const left = seen
    .map((i) => Math.min(...least.map((one) => one[i]!)) / (3 * pattern[i]! ** 2))
    .sort((a, b) => a - b);
  if (left[left.length >> 1]! > 0.85) return refuse('no-match');
  const telling = seen.filter((i) => sureness(cells, i) > TELLS);
  return telling.length < Math.max(8, 0.04 * grid.columns * grid.rows)
    ? refuse('alike')
    : undefined;
};

const reading = (
  request: MendPhotoRequest,
  looked: Looked,
  fit: PlaneFit,
  h: Homography,
  lying: boolean,
): MendPhotoReading => {
  const { setup, pixels } = request;
  const { sheet, lens } = setup;
  const from = request.cameraMm ?? setup.distanceMm;
  const [acrossMm, alongMm] = [printAcrossMm(sheet), printAlongMm(sheet)];
  const camera = cameraOf(h, pixels, lying ? [alongMm, acrossMm] : [acrossMm, alongMm], from);
  const aside = lying ? camera.yMm : camera.xMm;
  const gap = opticalGap(lens);
  const estimate = (value: number, sigma: number): Estimate => ({ value, plusMinus: 2 * sigma });
  // A distance that is only assumed changes the bands that a right print would show.
  const doubt =
    request.cameraMm === undefined
      ? ((acrossMm / sheet.viewingPitchMm) * gap * DISTANCE_DOUBT) / from
      : 0;
  const across = estimate(fit.across, Math.hypot(fit.sigmas[1], doubt));
  const skew = skewFrom(setup, estimate(fit.along, fit.sigmas[2]), camera.heightMm);
  const perEye = gap / camera.heightMm;
  const off = (0.5 - fit.middle) * sheet.viewingPitchMm - aside * perEye;
  const offset = off - sheet.viewingPitchMm * Math.round(off / sheet.viewingPitchMm);
  const map = viewMap(looked, fit);
  const told = map.trust.filter((trust) => trust > TOLD).length / map.trust.length;
  const spread = spreadOf(looked, map);
  return {
    ok: true,
    map,
    pitch: alongPrint(pitchFrom(setup, across, camera.heightMm, 0), skew.rad.value),
    skew: { ...skew, signKnown: true },
    offsetMm: estimate(offset, Math.hypot(fit.sigmas[0] * sheet.viewingPitchMm, AIM_MM * perEye)),
    extraSpread: SPREADS[spread] ?? 0,
    lifted: liftedParts(map, blurredMore(looked, spread)),
    told,
    cautions: cautionsOf(request, told, Math.abs(aside) / from, across),
  };
};

/** Measured along the print's own edge, not across the ribs: bands = W (1 / p_w − cos α / p_v). */
const alongPrint = ({ bands, viewingLpi }: PitchRead, skewRad: number): PitchRead => ({
  bands,
  viewingLpi: { ...viewingLpi, value: viewingLpi.value / Math.cos(skewRad) },
});

/** Trust from which a cell counts as having told its view. */
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

const viewMap = ({ cells, grid, pattern }: Looked, fit: PlaneFit): ViewMap => {
  const { likely, steps, across, along } = cells;
  const count = grid.columns * grid.rows;
  const [place, trust, left] = [0, 1, 2].map(() => new Float32Array(count)) as [
    Float32Array,
    Float32Array,
    Float32Array,
  ];
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
    const off = u - fit.middle - fit.across * across[i]! - fit.along * along[i]!;
    left[i] = trust[i]! > TOLD ? off - Math.round(off) : NaN;
  }
  return { columns: grid.columns, rows: grid.rows, place, trust, left };
};

/** Which of SPREADS explains the told cells best; a wider one must be clearly better. */
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

/** For each cell, how much better the widest spread explains it than the print's own does, in nats. */
const blurredMore = ({ least }: Looked, spread: number): Float32Array => {
  const [own, widest] = [least[spread]!, least.at(-1)!];
  return own.map((left, i) => Math.log(left / widest[i]!));
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
      'The distance of the camera is not known: the print’s own viewing distance is assumed, and the pitch is less sure for it.',
    );
  if (slant > 0.12)
    cautions.push(
      'The photo was taken from the side: the place of the print under the ribs is less sure for it.',
    );
  if (told < 0.3)
    cautions.push(
      'Less than a third of the picture tells which view it shows; the rest is too plain or too alike.',
    );
  if (Math.abs(across.value) > 6)
    cautions.push('There are many bands in the photo: count a few of them by eye to be sure.');
  return cautions;
};
