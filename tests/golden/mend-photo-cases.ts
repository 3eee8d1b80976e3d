/** Seeded photos of failed prints, read by the studio, and what is true of each. */
import type { MendPhotoReading } from '../../src/core/mend/photo/terms.ts';
import { readMendPhoto } from '../../src/core/mend/photo/read-photo.ts';
import type { MendSetup } from '../../src/core/mend/fault.ts';
import { mm } from '../../src/core/units/units.ts';
import type { PhotoCorners } from '../../src/core/pitch/photo/photo-terms.ts';
import { randomFrom } from './lens-scan.ts';
import type { Wrong } from './mend-bench.ts';
import type { PhotoOf, Printed } from './mend-photo.ts';
import { DISTANCE_MM, PHOTO_SHEET, plainPhoto, takeMendPhoto } from './mend-photo.ts';
import { lensInFocus, pitchFor } from './press.ts';

const lens = lensInFocus(60, 0.3);

export const photoSetup: MendSetup = {
  lens: { pitchMm: mm(lens.pitchMm), thicknessMm: mm(lens.thicknessMm), index: lens.index },
  sheet: PHOTO_SHEET,
  distanceMm: DISTANCE_MM,
};

/** Pitch ±1 %, skew ±1°, place anywhere, scale ±1 %, ink: any of them, a camera held by hand. */
export const photoCase = (seed: number): PhotoOf => {
  const random = randomFrom(seed * 104_729 + 7);
  for (let i = 0; i < 5; i += 1) random();
  const either = (reach: number) => (2 * random() - 1) * reach;
  const has = () => random() < 0.5;
  const wrong: Wrong = {
    ...(has() ? { lensScale: 1 + either(0.01) } : {}),
    ...(has() ? { skewRad: either(Math.PI / 180) } : {}),
    ...(has() ? { offsetMm: either(lens.pitchMm / 2) } : {}),
    ...(has() && has() ? { scale: 1 + either(0.01) } : {}),
    ...(has() && has() ? { smear: 0.4 * random() } : {}),
  };
  return {
    ...plainPhoto,
    wrong,
    seed,
    cameraMm: Math.round((350 + 250 * random()) / 10) * 10,
    asideMm: [either(12), either(12)],
    noise: 0.02 * random(),
    falloff: 0.3 * random(),
    tone: 0.9 + 0.3 * random(),
    amissPx: 1.5,
  };
};

export const readingOf = (
  printed: Printed,
  photo: PhotoOf,
  setup: MendSetup = photoSetup,
): MendPhotoReading => {
  const { pixels, corners } = takeMendPhoto(printed, photo);
  return readMendPhoto({
    pixels,
    pictures: printed.pictures,
    setup,
    blur: { spot: 0.15, dot: 0.1 },
    corners: corners as unknown as PhotoCorners,
    cameraMm: photo.cameraMm,
  });
};

export interface PhotoTruth {
  /** Woven pitch that would have been right, drawn through the same driver. */
  readonly lpi: number;
  readonly skewRad: number;
  readonly offsetMm: number;
}

export const truthOf = ({ wrong }: PhotoOf): PhotoTruth => ({
  lpi:
    (25.4 / pitchFor({ ...lens, pitchMm: lens.pitchMm * (wrong.lensScale ?? 1) }, DISTANCE_MM)) *
    (wrong.scale ?? 1),
  skewRad: wrong.skewRad ?? 0,
  offsetMm: wrong.offsetMm ?? 0,
});

/** What a quarter zone over this print allows, lines to the inch and radians (optics relation 7). */
export const ALLOWED_LPI = (0.25 * PHOTO_SHEET.acrossDpi) / PHOTO_SHEET.widthDots;
export const ALLOWED_RAD =
  (0.25 * lens.pitchMm * PHOTO_SHEET.alongDpi) / (PHOTO_SHEET.heightDots * 25.4);

/**
 * Seeded photos of prints that lie flat (even numbers) and of the like with a bubble somewhere (odd ones), by a hand
 * less careful than in `photoCase`: corners dragged amiss by up to 5 px, a camera up to 35 mm aside, in dimmer light.
 * Of three prints one is soft all over by air under the lens, one by ink that runs.
 */
export const liftedCase = (number: number): PhotoOf => {
  const photo = photoCase(3000 + number);
  const random = randomFrom(number * 7_919 + 3);
  for (let i = 0; i < 5; i += 1) random();
  const either = (reach: number) => (2 * random() - 1) * reach;
  const soft = [{}, { airMm: 0.1 + 0.3 * random() }, { smear: 0.3 + 0.5 * random() }][
    (number >> 1) % 3
  ];
  const careless = {
    ...photo,
    wrong: { ...photo.wrong, ...soft },
    amissPx: 1 + 4 * random(),
    asideMm: [either(35), either(35)] as const,
    noise: 0.01 + 0.05 * random(),
    falloff: 0.6 * random(),
  };
  if (number % 2 === 0) return careless;
  const bubble = {
    xMm: either(45),
    yMm: either(32),
    radiusMm: 10 + 14 * random(),
    airMm: 0.2 + 0.4 * random(),
  };
  return { ...careless, wrong: { ...careless.wrong, bubble } };
};
