/**
 * Corners at many sizes, each with 256 bits that say what the picture looks like around it, whichever way it is turned:
 * comparisons of pairs of pixels (Calonder et al., BRIEF, ECCV 2010), turned with the patch's centroid (Rublee et al.,
 * ORB, ICCV 2011).
 */
import type { Plane } from '../parallax/plane.ts';
import { cornersOf } from './corners.ts';
import { meanAround, resizedBy } from './planes.ts';
import { drawer } from './draw.ts';

export interface Features {
  readonly count: number;
  /** In pixels of the plane itself. */
  readonly x: Float64Array;
  readonly y: Float64Array;
  /** Pixels of the plane to one of the size at which it was found. */
  readonly scale: Float64Array;
  /** Eight words each. */
  readonly bits: Uint32Array;
}

const WORDS = 8;
const RADIUS = 15;
const STEP = 1.25;
const SIZES = 8;
/** A smaller picture holds too few places. */
const LEAST_PX = 64;
const WANTED = 2000;

/** Pairs of places in a patch: x, y, x, y … Gaussian around its middle, σ a fifth of its width, as BRIEF advises. */
const patternOf = (): Float64Array => {
  const draw = drawer(31);
  const sigma = (2 * RADIUS + 1) / 5;
  const place = (): [number, number] => {
    for (;;) {
      const radius = sigma * Math.sqrt(-2 * Math.log(1 - draw()));
      const angle = 2 * Math.PI * draw();
      if (radius < RADIUS - 1) return [radius * Math.cos(angle), radius * Math.sin(angle)];
    }
  };
  return Float64Array.from(
    Array.from({ length: WORDS * 32 }, () => [...place(), ...place()]).flat(),
  );
};

/** The direction from a corner to the centroid of the light around it, radians. */
const turnAt = ({ width, data }: Plane, x: number, y: number): number => {
  let [right, down] = [0, 0];
  for (let dy = -RADIUS; dy <= RADIUS; dy += 1) {
    const reach = Math.floor(Math.sqrt(RADIUS * RADIUS - dy * dy));
    for (let dx = -reach; dx <= reach; dx += 1) {
      const light = data[(y + dy) * width + x + dx]!;
      right += dx * light;
      down += dy * light;
    }
  }
  return Math.atan2(down, right);
};

const describe = (
  { width, data }: Plane,
  x: number,
  y: number,
  turn: number,
  pattern: Float64Array,
  bits: Uint32Array,
) => {
  const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
  const light = (at: number) => {
    const [u, v] = [pattern[at]!, pattern[at + 1]!];
    return data[Math.round(y + sin * u + cos * v) * width + Math.round(x + cos * u - sin * v)]!;
  };
  for (let word = 0; word < WORDS; word += 1) {
    let value = 0;
    for (let bit = 0; bit < 32; bit += 1) {
      const at = (word * 32 + bit) * 4;
      value = (value << 1) | (light(at) < light(at + 2) ? 1 : 0);
    }
    bits[word] = value >>> 0;
  }
};

/** Yields between sizes. */
export function* featuresOf(plane: Plane): Generator<undefined, Features> {
  const pattern = patternOf();
  const x: number[] = [];
  const y: number[] = [];
  const scale: number[] = [];
  const words: number[] = [];
  const bits = new Uint32Array(WORDS);
  for (let size = 0; size < SIZES; size += 1) {
    const zoom = STEP ** size;
    const level = resizedBy(plane, 1 / zoom);
    if (Math.min(level.width, level.height) < LEAST_PX) break;
    const soft = meanAround(meanAround(level, 1), 1);
    // As many places to an area at every size.
    const wanted = (WANTED * (1 - STEP ** -2)) / zoom ** 2;
    for (const corner of cornersOf(soft, wanted, RADIUS + 2)) {
      const [px, py] = [Math.floor(corner.x), Math.floor(corner.y)];
      describe(soft, px, py, turnAt(soft, px, py), pattern, bits);
      x.push(corner.x * zoom);
      y.push(corner.y * zoom);
      scale.push(zoom);
      words.push(...bits);
    }
    yield;
  }
  return {
    count: x.length,
    x: Float64Array.from(x),
    y: Float64Array.from(y),
    scale: Float64Array.from(scale),
    bits: Uint32Array.from(words),
  };
}

const onesIn = (word: number): number => {
  const pairs = word - ((word >>> 1) & 0x55555555);
  const fours = (pairs & 0x33333333) + ((pairs >>> 2) & 0x33333333);
  return Math.imul((fours + (fours >>> 4)) & 0x0f0f0f0f, 0x01010101) >>> 24;
};

/** Bits in which two features differ, 0 … 256. */
const apart = (a: Uint32Array, i: number, b: Uint32Array, j: number): number => {
  let sum = 0;
  for (let word = 0; word < WORDS; word += 1)
    sum += onesIn(a[i * WORDS + word]! ^ b[j * WORDS + word]!);
  return sum;
};

/** More differing bits are no likeness; and the next best must be clearly worse (Lowe, IJCV 60, 2004: 0.8). */
const MOST_APART = 80;
const CLEARLY = 0.85;

/** Places of one picture and those most like them in the other, each way round. Yields now and then. */
export function* matchFeatures(
  from: Features,
  to: Features,
): Generator<undefined, (readonly [from: number, to: number])[]> {
  const best = new Int32Array(from.count).fill(-1);
  const bestBack = new Int32Array(to.count).fill(-1);
  const leastBack = new Int32Array(to.count).fill(257);
  for (let i = 0; i < from.count; i += 1) {
    let [least, next, at] = [257, 257, -1];
    for (let j = 0; j < to.count; j += 1) {
      const distance = apart(from.bits, i, to.bits, j);
      if (distance < leastBack[j]!) {
        leastBack[j] = distance;
        bestBack[j] = i;
      }
      if (distance < least) {
        next = least;
        least = distance;
        at = j;
      } else if (distance < next) next = distance;
    }
    if (least <= MOST_APART && least < CLEARLY * next) best[i] = at;
    if (i % 100 === 99) yield;
  }
  return [...best.keys()].flatMap((i) => {
    const j = best[i]!;
    return j >= 0 && bestBack[j] === i ? [[i, j] as const] : [];
  });
}
