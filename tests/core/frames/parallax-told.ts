/** What the measurement through a whole sequence tells of a made scene, and how much of it is wrong. */
import { placeAt } from '../../../src/core/frames/parallax/match.ts';
import { framesAsked } from '../../../src/core/frames/parallax/others.ts';
import type { PairMotion } from '../../../src/core/frames/parallax/pair.ts';
import { matchPair } from '../../../src/core/frames/parallax/pair.ts';
import type { Plane } from '../../../src/core/frames/parallax/plane.ts';
import { pyramidOf } from '../../../src/core/frames/parallax/plane.ts';
import { motionThrough } from '../../../src/core/frames/parallax/slope.ts';
import type { Scene, Where } from './parallax-scene.ts';
import { shotOf, truthOfScene } from './parallax-scene.ts';
import { run } from './run.ts';

const FRAMES = 12;
/** The scene's own coordinates are those of this camera. */
const MIDDLE = 5;
/** Pixels a lenticule, as in the demo scenes; what is wrong by more than a tenth of one is wrong. */
const LENTICULE_PX = 1.25;
const WRONG_PX = 0.1 * LENTICULE_PX;

export interface Told {
  places: number;
  told: number;
  wrong: number;
}
export type ToldWhere = Record<Where, Told>;

const none = (): Told => ({ places: 0, told: 0, wrong: 0 });

/** Adds what is told of the pairs that begin with these frames. */
export const toldOf = (scenes: readonly Scene[], pairs: readonly number[]): ToldWhere => {
  const told: ToldWhere = { edge: none(), fence: none(), elsewhere: none() };
  for (const scene of scenes) {
    const kept = new Map<number, Plane[]>();
    const pyramid = (k: number): Plane[] => {
      const levels = kept.get(k) ?? pyramidOf(shotOf(scene, k - MIDDLE));
      kept.set(k, levels);
      return levels;
    };
    for (const index of pairs) {
      const alone = run(
        matchPair(pyramid(index), pyramid(index + 1), { ribs: 'upright', downTo: 0 }),
      );
      const asked = [index, ...framesAsked(index, FRAMES)];
      const planes = new Map(asked.map((k) => [k, pyramid(k)[0] as Plane]));
      const even = Array.from({ length: FRAMES }, (_, i) => i);
      const level = even.map(() => 0);
      const track = { along: even, slip: level, rise: level };
      count(
        told,
        scene,
        run(motionThrough(planes, alone, { index, ribs: 'upright', track })),
        index,
      );
    }
  }
  return told;
};

const count = (told: ToldWhere, scene: Scene, motion: PairMotion, index: number): void => {
  const { seenAt, whereIs } = truthOfScene(scene, index - MIDDLE);
  motion.shift.forEach((share, at) => {
    const [x, y] = [placeAt(at % motion.columns), placeAt(Math.floor(at / motion.columns))];
    const there = told[whereIs(x, y)];
    there.places += 1;
    if (Number.isNaN(share)) return;
    there.told += 1;
    const px = share * scene.width;
    if (!seenAt(x, y).some((seen) => Math.abs(seen - px) <= WRONG_PX)) there.wrong += 1;
  });
};

export const shareTold = ({ told, places }: Told): number => told / places;
export const shareWrong = ({ told, wrong }: Told): number => wrong / told;
