/**
 * The lamp target: a grid of numbered patches, denser from line to line and warmer from left to right. Each has a
 * grey ramp, a few familiar colours and, where there is one, a piece of the job’s picture.
 */
import type { InkMm } from '../pitch/lettering.ts';
import { lettering } from '../pitch/lettering.ts';
import type { Grating, Painting } from '../pitch/painted-rows.ts';
import { inDots, inkInDots, paintingSize } from '../pitch/painted-rows.ts';
import type { Ribs } from '../weave/sheet-spec.ts';
import type { LampCurve } from './lamp.ts';
import { gainsOf, lampLight } from './lamp.ts';
import { linearToSrgb, srgbToLinear } from './srgb.ts';

/** Row-major RGB, 8 bit, sRGB-encoded; length columns × rows × 3. */
interface TargetPicture {
  readonly columns: number;
  readonly rows: number;
  readonly rgb: readonly number[];
}

export interface LampTargetSpec {
  readonly kind: 'lamp-target';
  readonly acrossDpi: number;
  readonly alongDpi: number;
  readonly ribs: Ribs;
  /** Left out: ramp and colours only. */
  readonly picture?: TargetPicture;
}

export const DENSITIES: readonly number[] = [1, 1.3, 1.6, 1.9, 2.2];
export const WARMTHS: readonly number[] = [-2, -1, 0, 1, 2];
export const LAMP_PATCHES = DENSITIES.length * WARMTHS.length;

/** The curve of a patch. @param patch 1 … LAMP_PATCHES, counted along the lines. */
export const curveOfPatch = (patch: number): LampCurve | undefined => {
  const density = DENSITIES[Math.floor((patch - 1) / WARMTHS.length)];
  const warmth = WARMTHS[(patch - 1) % WARMTHS.length];
  return density === undefined || warmth === undefined ? undefined : { density, warmth };
};

/** Eight steps of grey, evenly spaced in sRGB code. */
const RAMP = Array.from({ length: 8 }, (_, i): Rgb => {
  const code = Math.round((255 * i) / 7);
  return [code, code, code];
});
/** Skin, dark skin, foliage, sky, sea, brick, petal, sand in daylight (our own choice). */
const COLOURS: readonly Rgb[] = [
  [214, 170, 146],
  [122, 84, 66],
  [86, 112, 62],
  [124, 164, 206],
  [38, 92, 122],
  [164, 72, 54],
  [204, 72, 120],
  [216, 196, 150],
];

type Rgb = readonly [number, number, number];

const PATCH_MM = 28;
const ACROSS_STEP_MM = 31;
const SIDE_MM = 4;
const HEAD_MM = 7;
const NUMBER_MM = 4.5;
const LINE_MM = 5;
const PICTURE_MM = 14;
const ALONG_GAP_MM = 3;
const NUMBER_SQUARE_MM = 0.45;
const WORDS_SQUARE_MM = 0.3;

const ALONG_STEP_MM = NUMBER_MM + 2 * LINE_MM + PICTURE_MM + ALONG_GAP_MM;
export const LAMP_ACROSS_MM = 2 * SIDE_MM + WARMTHS.length * ACROSS_STEP_MM;
export const LAMP_ALONG_MM = HEAD_MM + DENSITIES.length * ALONG_STEP_MM + SIDE_MM;
/** Width / height of the piece of picture in a patch. */
export const PICTURE_SHAPE = PATCH_MM / PICTURE_MM;

const extent = (spec: LampTargetSpec) => {
  const { toAcross, toAlong } = inDots(spec);
  return {
    ribs: spec.ribs,
    acrossDots: toAcross(LAMP_ACROSS_MM),
    alongDots: toAlong(LAMP_ALONG_MM),
  };
};

/** Width and height of the target’s file, dots. */
export const lampTargetSize = (spec: LampTargetSpec) => paintingSize(extent(spec));

/** The 8-bit sRGB colour that the curve prints for a colour. */
export const lampColour = (colour: Rgb, { density, warmth }: LampCurve): Rgb => {
  const gains = gainsOf(warmth);
  const [red, green, blue] = colour.map((code, c) =>
    Math.round(255 * linearToSrgb(lampLight(srgbToLinear(code / 255), density, gains[c]!))),
  ) as [number, number, number];
  return [red, green, blue];
};

/** The lines of samples in every patch, from top to bottom: start, height and samples. */
const linesOf = ({ picture }: LampTargetSpec) => [
  { from: NUMBER_MM, height: LINE_MM, samples: RAMP },
  { from: NUMBER_MM + LINE_MM, height: LINE_MM, samples: COLOURS },
  ...Array.from({ length: picture?.rows ?? 0 }, (_, row) => {
    const { columns, rows, rgb } = picture!;
    return {
      from: NUMBER_MM + 2 * LINE_MM + (row * PICTURE_MM) / rows,
      height: PICTURE_MM / rows,
      samples: Array.from({ length: columns }, (_sample, column): Rgb => {
        const at = (row * columns + column) * 3;
        return [rgb[at]!, rgb[at + 1]!, rgb[at + 2]!];
      }),
    };
  }),
];

/** One line of samples across a line of patches, in each patch by its own curve. */
const rowOf = (spec: LampTargetSpec, samples: readonly Rgb[], density: number): Uint8Array => {
  const { toAcross } = inDots(spec);
  const row = new Uint8Array(toAcross(LAMP_ACROSS_MM) * 3).fill(255);
  WARMTHS.forEach((warmth, place) => {
    const left = SIDE_MM + place * ACROSS_STEP_MM;
    samples.forEach((sample, i) => {
      const edge = (index: number) => toAcross(left + (index * PATCH_MM) / samples.length);
      const colour = lampColour(sample, { density, warmth });
      for (let dot = edge(i); dot < edge(i + 1); dot += 1) row.set(colour, dot * 3);
    });
  });
  return row;
};

const numbers = (): InkMm[] =>
  Array.from({ length: LAMP_PATCHES }, (_, i) =>
    lettering(
      String(i + 1),
      SIDE_MM + (i % WARMTHS.length) * ACROSS_STEP_MM,
      HEAD_MM + Math.floor(i / WARMTHS.length) * ALONG_STEP_MM,
      NUMBER_SQUARE_MM,
    ),
  ).flat();

export const lampTargetPainting = (spec: LampTargetSpec): Painting => {
  const { toAlong } = inDots(spec);
  const { acrossDots } = extent(spec);
  const lines = linesOf(spec);
  const gratings = DENSITIES.flatMap((density, down) =>
    lines.map(({ from, height, samples }): Grating => {
      const top = HEAD_MM + down * ALONG_STEP_MM + from;
      return {
        box: {
          acrossFirst: 0,
          acrossLast: acrossDots,
          alongFirst: toAlong(top),
          alongLast: toAlong(top + height),
        },
        row: rowOf(spec, samples, density),
      };
    }),
  );
  const words = lettering(
    'LAMP TARGET  DENSER DOWNWARDS, WARMER TO THE RIGHT',
    SIDE_MM,
    2,
    WORDS_SQUARE_MM,
  );
  return { ...extent(spec), gratings, ink: inkInDots([...numbers(), ...words], inDots(spec)) };
};
