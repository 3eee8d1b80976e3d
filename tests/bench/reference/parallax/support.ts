/**
 * The window around a place, and whether the place’s own surface has texture. Beside a strong edge a bare surface offers
 * nothing to match but the edge, which moves with the nearer thing, so the nearer thing seems to grow (foreground
 * fattening: Scharstein & Szeliski 2002, from memory). So a window is asked on both sides of the place, for the texture
 * of what resembles it (adaptive support weights, Yoon & Kweon 2006).
 */
import type { Plane } from '../../../../src/core/frames/parallax/plane.ts';
import { clamp, cubic } from './window.ts';

const RADIUS_PX = 4;
const SIZE = 2 * RADIUS_PX + 1;
/** How far from the middle pixels count, and how much they may differ from it; white is 1 (our own values). */
const SPREAD_PX = 2.5;
const ALIKE = 0.06;
/** A larger difference means another object, and counts no more than this. */
const MISS_AT_MOST = 0.03;
/** Gradient across the ribs below which a window has no texture: root mean square; white is 1. */
const TEXTURE = 2 / 255;
/** The same before softening, for the place’s own surface: over the whole window, and over either half. */
const OWN_TEXTURE = 1.3 / 255;
const TEXTURE_ASIDE = 1 / 255;
/** A larger gradient counts no more than this, so that one strong edge cannot pass for texture. */
const GRADIENT_AT_MOST = 3 / 255;

/** Weight of each pixel of the window by its place. */
const NEARNESS = Float64Array.from({ length: SIZE * SIZE }, (_, i) => {
  const [u, v] = [(i % SIZE) - RADIUS_PX, Math.floor(i / SIZE) - RADIUS_PX];
  return Math.exp(-(u * u + v * v) / (2 * SPREAD_PX ** 2));
});

/**
 * The window of one place: offsets, weights and values of the pixels that count. A pixel counts by how much it and both
 * beside it resemble the middle one before softening.
 */
export class Support {
  count = 0;
  /** Whether the place’s own surface has texture to its left and to its right. */
  isOwn = false;
  readonly #plane: Plane;
  readonly #columns = new Int32Array(SIZE * SIZE);
  readonly #rows = new Int32Array(SIZE * SIZE);
  readonly #weights = new Float64Array(SIZE * SIZE);
  readonly #shown = new Float64Array(SIZE * SIZE);
  /** Left of the place, on it, right of it. */
  readonly #texture = new Float64Array(3);
  readonly #mass = new Float64Array(3);

  constructor(plane: Plane) {
    this.#plane = plane;
  }

  /** Places the window. @returns false where there is too little texture. */
  lay(x: number, y: number): boolean {
    const { width, height, data, sharp = data } = this.#plane;
    const edge = width - 1;
    const middle = sharp[y * width + x]!;
    this.count = 0;
    this.#texture.fill(0);
    this.#mass.fill(0);
    let energy = 0;
    for (let v = -RADIUS_PX, i = 0; v <= RADIUS_PX; v += 1) {
      const row = clamp(y + v, height - 1) * width;
      for (let u = -RADIUS_PX; u <= RADIUS_PX; u += 1, i += 1) {
        const column = x + u;
        const at = row + (column < 0 ? 0 : column > edge ? edge : column);
        const left = row + (column < 1 ? 0 : column > edge ? edge : column - 1);
        const right = row + (column < 0 ? 0 : column >= edge ? edge : column + 1);
        const before = sharp[left]!;
        const after = sharp[right]!;
        // A softened pixel shows its neighbours too: beside another surface it moves with that one.
        const unlike = Math.max(
          Math.abs(sharp[at]! - middle),
          Math.abs(before - middle),
          Math.abs(after - middle),
        );
        const weight = Math.exp(-unlike / ALIKE) * NEARNESS[i]!;
        if (weight < 0.02) continue;
        energy += weight * ((data[right]! - data[left]!) / 2) ** 2;
        this.#columns[this.count] = column;
        this.#rows[this.count] = row;
        this.#weights[this.count] = weight;
        this.#shown[this.count] = data[at]!;
        this.count += 1;
        const side = u < 0 ? 0 : u === 0 ? 1 : 2;
        const gradient = Math.min(Math.abs(after - before) / 2, GRADIENT_AT_MOST);
        this.#texture[side]! += weight * gradient * gradient;
        this.#mass[side]! += weight;
      }
    }
    const [leftMass, onMass, rightMass] = this.#mass as unknown as [number, number, number];
    const sum = leftMass + onMass + rightMass;
    for (let i = 0; i < this.count; i += 1) this.#weights[i] = this.#weights[i]! / sum;
    this.isOwn = this.#showsItself();
    return energy / sum >= TEXTURE ** 2;
  }

  #showsItself(): boolean {
    const [left, on, right] = this.#texture as unknown as [number, number, number];
    const [leftMass, onMass, rightMass] = this.#mass as unknown as [number, number, number];
    return (
      left + on + right >= OWN_TEXTURE ** 2 * (leftMass + onMass + rightMass) &&
      left >= TEXTURE_ASIDE ** 2 * leftMass &&
      right >= TEXTURE_ASIDE ** 2 * rightMass
    );
  }

  /** Mean difference, each at most `MISS_AT_MOST`, to another frame in which everything has moved by dx. */
  miss({ data, width }: Plane, dx: number): number {
    const whole = Math.floor(dx);
    // One fraction serves the whole window.
    const [a, b, c, d] = cubic(dx - whole);
    const edge = width - 1;
    let sum = 0;
    for (let i = 0; i < this.count; i += 1) {
      const x = this.#columns[i]! + whole;
      const row = this.#rows[i]!;
      const value =
        x > 0 && x + 2 < width
          ? a * data[row + x - 1]! +
            b * data[row + x]! +
            c * data[row + x + 1]! +
            d * data[row + x + 2]!
          : a * data[row + clamp(x - 1, edge)]! +
            b * data[row + clamp(x, edge)]! +
            c * data[row + clamp(x + 1, edge)]! +
            d * data[row + clamp(x + 2, edge)]!;
      const miss = Math.abs(value - this.#shown[i]!);
      sum += this.#weights[i]! * (miss < MISS_AT_MOST ? miss : MISS_AT_MOST);
    }
    return sum;
  }
}
