/**
 * The tilt proof without WebGL2: the same relations on the processor, in a small picture that the canvas
 * enlarges. Frames are averaged down to the drawn size once, in linear light.
 */
import { code8OfLinear } from '../core/colour/srgb.ts';
import type { SlotShare } from '../core/lens/mix.ts';
import { mix } from '../core/lens/mix.ts';
import type { LinearPicture } from './fit-picture.ts';
import { fitLinear } from './fit-picture.ts';
import type { Painter } from './painter.ts';
import type { Box, Picture, ProofScene, ProofView } from './scene.ts';
import { SURROUND, lenticulesPerPixel, printBox, slotsReady } from './scene.ts';

/** Longest side that is drawn: a turn then takes some tens of milliseconds. */
const LONGEST = 640;

const code8 = code8OfLinear();

interface Reduced {
  readonly of: Picture;
  readonly box: Box;
  readonly picture: LinearPicture;
}

export const createCanvasPainter = (canvas: HTMLCanvasElement): Painter => {
  const context = canvas.getContext('2d', { alpha: false });
  const small = document.createElement('canvas');
  const smallContext = small.getContext('2d', { alpha: false });
  let scene: ProofScene | undefined;
  let reduced: (Reduced | undefined)[] = [];

  /** The frame at the drawn size, but not enlarged; kept until frame or size changes. */
  const reducedFrame = (frame: number, box: Box): LinearPicture | undefined => {
    const of = scene?.frames[frame];
    if (of === undefined) return undefined;
    const kept = reduced[frame];
    if (kept?.of === of && kept.box.width === box.width && kept.box.height === box.height)
      return kept.picture;
    const columns = Math.min(of.columns, box.width);
    const picture = fitLinear(of, columns, Math.min(of.rows, box.height));
    reduced[frame] = { of, box, picture };
    return picture;
  };

  return {
    kind: 'canvas',
    load(next) {
      scene = next;
      reduced = reduced.slice(0, next.frames.length);
      return true;
    },
    paint(view) {
      if (context === null || smallContext === null) return;
      context.fillStyle = `rgb(${SURROUND} ${SURROUND} ${SURROUND})`;
      context.fillRect(0, 0, canvas.width, canvas.height);
      const slots = scene === undefined ? [] : slotsReady(scene);
      if (scene === undefined || slots.length === 0) return;
      const full = printBox(scene, canvas.width, canvas.height);
      const shrink = Math.min(1, LONGEST / Math.max(full.width, full.height));
      const box: Box = {
        left: 0,
        top: 0,
        width: Math.max(1, Math.round(full.width * shrink)),
        height: Math.max(1, Math.round(full.height * shrink)),
      };
      const frames = slots.map((frame) => reducedFrame(frame, box)!);
      if (small.width !== box.width) small.width = box.width;
      if (small.height !== box.height) small.height = box.height;
      smallContext.putImageData(drawPrint(scene, view, frames, box), 0, 0);
      context.imageSmoothingQuality = 'high';
      context.drawImage(small, full.left, full.top, full.width, full.height);
    },
    dispose() {
      reduced = [];
      scene = undefined;
    },
  };
};

/** One rib's part in a pixel: where it is, in lenticules, and how much of the pixel it covers. */
type RibPart = readonly [at: number, share: number];

const ribsUnder = (position: number, perPixel: number): RibPart[] => {
  if (perPixel >= 1) return [[position, 1]];
  const rib = Math.floor(position);
  const inside = position - rib;
  const left = Math.max(0, 0.5 - inside / perPixel);
  const right = Math.max(0, 0.5 - (1 - inside) / perPixel);
  const parts: RibPart[] = [[rib + 0.5, 1 - left - right]];
  if (left > 0) parts.push([rib - 0.5, left]);
  if (right > 0) parts.push([rib + 1.5, right]);
  return parts;
};

/** The frame samples of a pixel, for one position across the ribs and, if it matters, along them. */
type Takes = readonly (readonly [slot: number, at: number, share: number])[];

const drawPrint = (
  scene: ProofScene,
  view: ProofView,
  frames: readonly LinearPicture[],
  box: Box,
): ImageData => {
  const lying = scene.ribs === 'lying';
  const image = new ImageData(box.width, box.height);
  const acrossPx = lying ? box.height : box.width;
  const alongPx = lying ? box.width : box.height;
  const perPixel = lenticulesPerPixel(scene, box);
  const light = new Float64Array(3);
  const other = new Float64Array(3);

  const takesAt = (place: number, across: number, along: number): Takes => {
    const position = scene.acrossStart + (scene.acrossSpan * (across + 0.5)) / acrossPx;
    return ribsUnder(position, perPixel).flatMap(([at, part]) => {
      const fromMiddle = (at - scene.acrossStart) / scene.acrossSpan - 0.5;
      const { offset, across: slideAcross, along: slideAlong } = view.slide;
      const u = place + offset + slideAcross * fromMiddle + slideAlong * (along - 0.5);
      return mix(u, scene.slots.length, view.blur).map(
        ({ slot, rib, share }: SlotShare) => [slot, at + rib, share * part] as const,
      );
    });
  };

  for (let across = 0; across < acrossPx; across += 1) {
    let left: Takes | undefined;
    let right: Takes | undefined;
    for (let step = 0; step < alongPx; step += 1) {
      const along = (step + 0.5) / alongPx;
      if (left === undefined || view.slide.along !== 0) {
        left = takesAt(view.place, across, along);
        if (view.rightPlace !== undefined) right = takesAt(view.rightPlace, across, along);
      }
      gather(left, frames, scene.lenticules, along, lying, light);
      if (right !== undefined) {
        gather(right, frames, scene.lenticules, along, lying, other);
        // Red glass over the left eye: its view's luminance in red (ITU-R BT.709 weights).
        light[0] = 0.2126 * light[0]! + 0.7152 * light[1]! + 0.0722 * light[2]!;
        light[1] = other[1]!;
        light[2] = other[2]!;
      }
      const to = (lying ? across * box.width + step : step * box.width + across) * 4;
      for (let channel = 0; channel < 3; channel += 1)
        image.data[to + channel] = code8[Math.round(light[channel]!)]!;
      image.data[to + 3] = 255;
    }
  }
  return image;
};

/** Sums the samples of a pixel, interpolated in each frame; `into` gets linear RGB. */
const gather = (
  takes: Takes,
  frames: readonly LinearPicture[],
  lenticules: number,
  along: number,
  lying: boolean,
  into: Float64Array,
) => {
  into.fill(0);
  for (const [slot, at, share] of takes) {
    const { light, columns, rows } = frames[slot]!;
    const across = at / lenticules;
    const x = Math.min(columns - 1, Math.max(0, (lying ? along : across) * columns - 0.5));
    const y = Math.min(rows - 1, Math.max(0, (lying ? across : along) * rows - 0.5));
    const left = Math.floor(x);
    const top = Math.floor(y);
    const nearX = x - left;
    const nearY = y - top;
    const toRight = left + 1 < columns ? 3 : 0;
    const toBelow = top + 1 < rows ? columns * 3 : 0;
    const from = (top * columns + left) * 3;
    for (let channel = 0; channel < 3; channel += 1) {
      const here = from + channel;
      const upper = light[here]! * (1 - nearX) + light[here + toRight]! * nearX;
      const lower = light[here + toBelow]! * (1 - nearX) + light[here + toBelow + toRight]! * nearX;
      into[channel] = into[channel]! + share * (upper * (1 - nearY) + lower * nearY);
    }
  }
};
