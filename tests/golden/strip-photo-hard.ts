/**
 * Two hundred seeded photos of pitch strips that go wrong as photos do: a lens over a part of the bands,
 * a camera far off axis, out of focus, a distance that nobody typed, paper that stretched, a lens turned
 * on the strip, a lens of another pitch. Twenty of each kind; truth as in photo-cases.ts.
 */
import type { PhotoCase } from './photo-cases.ts';
import { photoCase, tracedLpi } from './photo-cases.ts';
import type { PhotoScene } from './strip-photo-scene.ts';
import { random } from './strip-photo.ts';

export const HARD_KINDS = [
  'plain',
  'covered across',
  'covered along',
  'covered at a corner',
  'tilted',
  'tilted, not typed',
  'blurred',
  'lens turned',
  'another lens',
  'stretched, not typed',
] as const;
export type HardKind = (typeof HARD_KINDS)[number];

export interface HardCase extends PhotoCase {
  readonly kind: HardKind;
}

const DEGREE = Math.PI / 180;

/** What is changed in a scene of photo-cases.ts, and whether the distance is typed. */
const wrongOf = (
  kind: HardKind,
  scene: PhotoScene,
  next: () => number,
): {
  readonly change: Partial<PhotoScene>;
  readonly lensScale?: number;
  readonly typed?: false;
} => {
  const between = (least: number, most: number) => least + (most - least) * next();
  const either = (least: number, most: number) => between(least, most) * (next() < 0.5 ? -1 : 1);
  // A share of the bands, from the one side or the other.
  const part = (): [number, number] => {
    const share = between(0.35, 0.9);
    return next() < 0.5 ? [0, share] : [1 - share, 1];
  };
  switch (kind) {
    case 'plain':
      return { change: {} };
    case 'covered across':
      return { change: { lensReach: [...part(), 0, 1] } };
    case 'covered along':
      return { change: { lensReach: [0, 1, ...part()] } };
    case 'covered at a corner':
      return { change: { lensReach: [...part(), ...part()] } };
    case 'tilted':
      return { change: { offAxisRad: between(12, 32) * DEGREE } };
    case 'tilted, not typed':
      return { change: { offAxisRad: between(2, 28) * DEGREE }, typed: false };
    case 'blurred':
      return { change: { blurPx: between(3, 7.5) } };
    case 'lens turned':
      return { change: { skewRad: either(1.4, 8) * DEGREE } };
    case 'another lens':
      return { change: {}, lensScale: 1 + either(0.018, 0.05) };
    case 'stretched, not typed':
      return {
        change: {
          stretchAcross: scene.stretchAcross + either(0, 0.004),
          stretchAlong: scene.stretchAlong + either(0, 0.004),
          offAxisRad: between(0, 10) * DEGREE,
        },
        typed: false,
      };
  }
};

/** @param number 0 … HARD_CASES − 1 */
export const hardCase = (number: number): HardCase => {
  const kind = HARD_KINDS[number % HARD_KINDS.length]!;
  const round = Math.floor(number / HARD_KINDS.length);
  // Every maker of photo-cases.ts in turn, with numbers that its own tests leave alone.
  const plain = photoCase(1000 + 5 * number + (round % 5));
  const next = random(90_000 + number);
  for (let i = 0; i < 5; i += 1) next();
  const { change, lensScale, typed } = wrongOf(kind, plain.scene, next);
  const lens = plain.scene.lens!;
  const own =
    lensScale === undefined ? lens : { ...lens, pitchMm: plain.nominal.pitchMm * lensScale };
  const scene: PhotoScene = { ...plain.scene, ...change, lens: own };
  return {
    kind,
    scene,
    nominal: plain.nominal,
    truthLpi: tracedLpi(own, scene.spec.readFromMm) * scene.stretchAcross,
    typedMm: typed === false ? undefined : plain.typedMm,
  };
};
