/** From a photo and its corners to one plane for the whole picture. */
import type { Homography } from '../../pitch/photo/camera.ts';
import { homographyOf, toPhoto } from '../../pitch/photo/camera.ts';
import type { PhotoCorners, PhotoPixels } from '../../pitch/photo/photo-terms.ts';
import type { Planes } from './cells.ts';
import { straightened } from './cells.ts';
import type { Looked } from './look.ts';
import { look, tells } from './look.ts';
import type { PlaneFit } from './plane-fit.ts';
import { fitPlane } from './plane-fit.ts';
import { cornerShifts } from './settle.ts';
import type { MendPhotoReading, MendPhotoRequest } from './terms.ts';
import { refuse } from './terms.ts';

/** Window sizes in places: wide ones tell views apart best, narrow ones follow many bands. */
export const WINDOWS = [14, 9] as const;

const UNIT = [
  [0, 0],
  [1, 0],
  [1, 1],
  [0, 1],
] as const;

/** True when the corners run clockwise around a picture and no three lie in line. */
const runRound = (corners: PhotoCorners): boolean =>
  corners.every((here, i) => {
    const [before, after] = [corners[(i + 3) % 4]!, corners[(i + 1) % 4]!];
    const turn =
      (here.xPx - before.xPx) * (after.yPx - here.yPx) -
      (here.yPx - before.yPx) * (after.xPx - here.xPx);
    return turn > 25;
  });

export interface Straight {
  readonly photo: Planes;
  readonly h: Homography;
}

export const layOut = (
  pixels: PhotoPixels,
  corners: PhotoCorners,
  [width, height]: readonly [number, number],
): Straight | undefined => {
  const h = runRound(corners) ? homographyOf(UNIT, corners) : undefined;
  return h === undefined ? undefined : { h, photo: straightened(pixels, h, width, height) };
};

export interface Found {
  readonly looked: Looked;
  readonly fit: PlaneFit;
}

/** The plane, by wide windows or else by narrow ones; or the reason why there is none. */
export const findPlane = (
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

/** A shift below this, in places, is not worth another round. */
const SETTLED = 0.25;

/** The photo with its corners corrected; undefined where they are good or the photo cannot tell. */
export const settle = (
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

/** The whole picture under one plane: each place from its step of u. */
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

/** A plane must be this much likelier than chance, in nats: at most e²⁰ planes are searched (our own value). */
const LEAST_SCORE = 25;
