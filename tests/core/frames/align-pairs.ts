/**
 * Two photographs of one scene, as a camera that was moved, zoomed and turned would take them: the second is warped by
 * OpenCV (bicubic), so that where each of its points lies on the first is known from the warp alone.
 */
import sharp from 'sharp';
import { linearToSrgb, srgbToLinear } from '../../../src/core/colour/srgb.ts';
import type { Plane } from '../../../src/core/frames/parallax/plane.ts';
import { at } from '../../tools/house.mjs';
import { loadOpenCv } from './open-cv.ts';

interface Mat {
  readonly data: Uint8Array;
  delete(): void;
}
interface OpenCv {
  readonly Mat: new (rows?: number, columns?: number, type?: number) => Mat;
  readonly Size: new (width: number, height: number) => object;
  readonly CV_8UC3: number;
  readonly CV_64F: number;
  readonly INTER_CUBIC: number;
  readonly BORDER_REFLECT: number;
  matFromArray(rows: number, columns: number, type: number, values: readonly number[]): Mat;
  warpAffine(
    from: Mat,
    to: Mat,
    matrix: Mat,
    size: object,
    interpolation: number,
    border: number,
  ): void;
  onRuntimeInitialized?: () => void;
}

/** Row-major RGB, sRGB codes. */
export interface Rgb {
  readonly width: number;
  readonly height: number;
  readonly data: Uint8Array;
}

export const scene = async (name: string): Promise<Rgb> => {
  const { data, info } = await sharp(at(`demo-scenes/${name}`))
    .removeAlpha()
    .raw()
    .toBuffer({ resolveWithObject: true });
  return { width: info.width, height: info.height, data };
};

/** Numbers 0 … 1 from a seed (mulberry32, public domain). */
export const lots = (seed: number) => {
  let state = seed;
  return (): number => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32;
  };
};

/** x′ = a x − b y + x₀, y′ = b x + a y + y₀, from the scene to the second picture; corners of pixels are whole. */
interface Warp {
  readonly a: number;
  readonly b: number;
  readonly x0: number;
  readonly y0: number;
}

const warped = async (picture: Rgb, { a, b, x0, y0 }: Warp, width: number, height: number) => {
  const { cv } = (await loadOpenCv()) as { cv: OpenCv };
  const from = new cv.Mat(picture.height, picture.width, cv.CV_8UC3);
  from.data.set(picture.data);
  // OpenCV counts from the middle of the first pixel.
  const half = 0.5;
  const matrix = cv.matFromArray(2, 3, cv.CV_64F, [
    a,
    -b,
    a * half - b * half + x0 - half,
    b,
    a,
    b * half + a * half + y0 - half,
  ]);
  const to = new cv.Mat();
  const size = new cv.Size(width, height);
  cv.warpAffine(from, to, matrix, size, cv.INTER_CUBIC, cv.BORDER_REFLECT);
  const data = Uint8Array.from(to.data);
  for (const mat of [from, matrix, to]) mat.delete();
  return { width, height, data };
};

const lightOf = Float64Array.from({ length: 256 }, (_, code) => srgbToLinear(code / 255));

/** Another exposure and white, and the camera's noise, σ in codes. */
export const exposed = (
  picture: Rgb,
  draw: () => number,
  gains: readonly number[],
  noise: number,
): Rgb => ({
  ...picture,
  data: picture.data.map((code, i) => {
    const light = Math.min(1, lightOf[code]! * gains[i % 3]!);
    const grain = Math.sqrt(-2 * Math.log(1 - draw())) * Math.cos(2 * Math.PI * draw());
    return Math.max(0, Math.min(255, Math.round(255 * linearToSrgb(light) + noise * grain)));
  }),
});

/** A part of the scene that is another one: what a flip changes. @param share of each side */
const changed = (picture: Rgb, other: Rgb, draw: () => number, share: number): Rgb => {
  const data = Uint8Array.from(picture.data);
  const [width, height] = [picture.width, picture.height].map((px) => Math.round(px * share));
  const left = Math.round(picture.width * (0.95 - share) * draw());
  const top = Math.round(picture.height * (0.95 - share) * draw());
  for (let y = 0; y < height!; y += 1)
    for (let i = 0; i < 3 * width!; i += 1)
      data[3 * ((top + y) * picture.width + left) + i] =
        other.data[3 * (y * other.width + 20) + i]!;
  return { ...picture, data };
};

export const planeOf = ({ width, height, data }: Rgb): Plane => ({
  width,
  height,
  data: Float32Array.from({ length: width * height }, (_, i) => {
    const [red, green, blue] = [0, 1, 2].map((c) => lightOf[data[3 * i + c]!]);
    return Math.sqrt(0.2126 * red! + 0.7152 * green! + 0.0722 * blue!);
  }),
});

interface Moves {
  /** The second is larger or smaller by up to so many powers of two. */
  readonly zooms: number;
  /** Turned by up to so many radians either way. */
  readonly turn: number;
  /** Share of each side that is another scene. */
  readonly change: number;
  readonly stops: number;
  readonly noise: number;
}

export interface PhotoPair {
  readonly first: Rgb;
  readonly second: Rgb;
  readonly zoom: number;
  /** Where a point of the second lies on the first. */
  truth(x: number, y: number): { readonly x: number; readonly y: number };
}

const SIZES = [
  [600, 750],
  [720, 900],
  [900, 640],
] as const;

export const photoPair = async (
  seed: number,
  picture: Rgb,
  other: Rgb,
  moves: Moves,
): Promise<PhotoPair> => {
  const draw = lots(seed);
  const within = (most: number) => most * (2 * draw() - 1);
  const [width, height] = SIZES[seed % SIZES.length]!;
  const zoom = 2 ** within(moves.zooms);
  const turn = within(moves.turn);
  const [a, b] = [zoom * Math.cos(turn), zoom * Math.sin(turn)];
  const [mx, my] = [picture.width / 2, picture.height / 2];
  const x0 = width / 2 + within(0.06) * width - a * mx + b * my;
  const y0 = height / 2 + within(0.06) * height - b * mx - a * my;
  const gain = 2 ** within(moves.stops);
  const second = await warped(
    changed(picture, other, draw, moves.change),
    { a, b, x0, y0 },
    width,
    height,
  );
  return {
    first: exposed(picture, draw, [1, 1, 1], moves.noise),
    second: exposed(second, draw, [1.15 * gain, gain, 0.85 * gain], moves.noise),
    zoom,
    truth: (x, y) => ({
      x: (a * (x - x0) + b * (y - y0)) / (a * a + b * b),
      y: (a * (y - y0) - b * (x - x0)) / (a * a + b * b),
    }),
  };
};
