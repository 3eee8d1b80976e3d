/**
 * The gains on linear light that make one picture as bright and as white as another, from places that lie on each other.
 * What was changed between the two, and what is burnt out or black, does not count.
 */
import type { Gains } from '../../colour/picture-light.ts';
import { LINEAR_MAX } from '../../colour/srgb.ts';
import { medianOf } from '../../numeric/median.ts';
import { moved } from '../../numeric/similarity.ts';
import type { PictureArea } from '../../weave/picture-area.ts';
import type { ReducedFrame } from '../../weave/source-image.ts';

export type LightMatch =
  | {
      readonly found: true;
      readonly gains: Gains;
      /** Share of the compared places that the gains make alike, 0 … 1. */
      readonly agrees: number;
    }
  /** Too little of them lies on each other, or what does is burnt out or black. */
  | { readonly found: false };

const FEWEST_PLACES = 40;
/** Of full scale: beyond it a camera has clipped, below it is noise. */
const BRIGHTEST = 0.95;
const DARKEST = 0.004;
/** Places that come to lie this near each other, in stops, are alike. */
const ALIKE_STOPS = 0.15;
const ROUNDS = 8;

/** Whether each of columns × rows places of an outline lies on the picture as a whole: 1, else 0. */
export const placesOn = (
  area: PictureArea,
  { widthPx, heightPx }: { readonly widthPx: number; readonly heightPx: number },
  columns: number,
  rows: number,
): Uint8Array => {
  const isOn = (column: number, row: number): boolean => {
    const plane = {
      x: area.left + (column / columns) * area.width,
      y: area.top + (row / rows) * area.height,
    };
    const { x, y } = area.toFrame === undefined ? plane : moved(area.toFrame, plane);
    return x > -0.5 && y > -0.5 && x < widthPx + 0.5 && y < heightPx + 0.5;
  };
  const corners = Array.from({ length: (columns + 1) * (rows + 1) }, (_, at) =>
    isOn(at % (columns + 1), Math.floor(at / (columns + 1))),
  );
  return Uint8Array.from({ length: columns * rows }, (_, at) => {
    const corner = Math.floor(at / columns) * (columns + 1) + (at % columns);
    const all = [corner, corner + 1, corner + columns + 1, corner + columns + 2];
    return all.every((one) => corners[one]) ? 1 : 0;
  });
};

type Stops = readonly [red: number, green: number, blue: number];

/** log₂ of what each place of `from` lacks to be as in `to`. */
const ratiosOf = (from: ReducedFrame, to: ReducedFrame, counts: Uint8Array): Stops[] => {
  const usable = (value: number) => value > DARKEST * LINEAR_MAX && value < BRIGHTEST * LINEAR_MAX;
  const ratios: Stops[] = [];
  counts.forEach((count, place) => {
    if (count === 0) return;
    const channels = [0, 1, 2].map((c): readonly [number, number] => [
      from.pixels[3 * place + c]!,
      to.pixels[3 * place + c]!,
    ]);
    if (!channels.flat().every(usable)) return;
    const [red, green, blue] = channels.map(([one, other]) => Math.log2(other / one));
    ratios.push([red!, green!, blue!]);
  });
  return ratios;
};

const middleOf = (ratios: readonly Stops[]): Stops => [
  medianOf(ratios.map(([red]) => red)),
  medianOf(ratios.map(([, green]) => green)),
  medianOf(ratios.map(([, , blue]) => blue)),
];

const offFrom = (one: Stops, middle: Stops): number =>
  Math.max(...one.map((stops, channel) => Math.abs(stops - middle[channel]!)));

/**
 * @param from and `to`: the same places of the print, linear light. @param counts 1 for places that lie on both
 *   pictures as a whole
 */
export const matchLight = (
  from: ReducedFrame,
  to: ReducedFrame,
  counts: Uint8Array,
): LightMatch => {
  const ratios = ratiosOf(from, to, counts);
  if (ratios.length < FEWEST_PLACES) return { found: false };
  let middle = middleOf(ratios);
  for (let round = 0; round < ROUNDS; round += 1) {
    const spread = medianOf(ratios.map((one) => offFrom(one, middle)));
    const near = ratios.filter((one) => offFrom(one, middle) <= Math.max(ALIKE_STOPS, spread));
    const next = middleOf(near);
    if (offFrom(next, middle) < 1e-4) break;
    middle = next;
  }
  return {
    found: true,
    gains: [2 ** middle[0], 2 ** middle[1], 2 ** middle[2]],
    agrees: ratios.filter((one) => offFrom(one, middle) <= ALIKE_STOPS).length / ratios.length,
  };
};
