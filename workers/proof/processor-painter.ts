/**
 * The tilt proof without a graphics card: the same relations on the processor. When a scene or a size is new, the
 * pictures are brought to the pixels that are drawn, in linear light; a turn then only sums samples of them.
 */
import type { ProofPixels, ProofSize } from '../../src/contract/proof.ts';
import { code8OfLinear } from '../../src/core/colour/srgb.ts';
import { kernels, layRooms, roomBytes } from '../../src/core/numeric/kernels.ts';
import { fitLinear } from '../../src/core/proof/fit-picture.ts';
import type {
  Box,
  Drift,
  ProofScene,
  ProofView,
  Picture,
  Slide,
} from '../../src/core/proof/scene.ts';
import { driftAt, printBox, slotsReady } from '../../src/core/proof/scene.ts';
import type { Painter } from './painter.ts';
import type { Grid, Samples } from './samples.ts';
import { findSamples, roomForSamples } from './samples.ts';

/** Most memory for the pictures, bytes; larger ones are drawn from fewer lines along the ribs. */
const PICTURE_BYTES = 256 * 2 ** 20;
/** u16[4] of linear light: red, green, blue and one that is not used. */
const SAMPLE_BYTES = 8;

/** Which channels a pass draws: all of one view, or with red glass over the left eye each eye's own. */
const ALL = 0;
const LEFT_IN_RED = 1;
const RIGHT_IN_GREEN_AND_BLUE = 2;

interface Laid extends Grid {
  readonly scene: ProofScene;
  readonly box: Box;
  readonly alongPx: number;
  /** Of the pictures along the ribs: as many as pixels, unless memory is short. */
  readonly lines: number;
  /** From a line of the pictures to the next. */
  readonly lineBytes: number;
  /** Of the lines drawn last. */
  readonly samples: Samples;
  readonly rooms: {
    readonly pictures: number;
    readonly table: number;
    readonly start: number;
    readonly at: number;
    readonly share: number;
    readonly out: number;
  };
}

/** From the first to before the second. */
type Lines = readonly [number, number];

const lengthsOf = (scene: ProofScene, { width, height }: Box) =>
  scene.ribs === 'lying'
    ? { acrossPx: height, alongPx: width }
    : { acrossPx: width, alongPx: height };

/** Brings the scene's pictures to the drawn size, turned so that a line of them lies across the ribs. */
const lay = (scene: ProofScene, box: Box): Laid | undefined => {
  const slots = slotsReady(scene);
  if (slots.length === 0) return undefined;
  const { acrossPx, alongPx } = lengthsOf(scene, box);
  const lying = scene.ribs === 'lying';
  const frames = [...new Set(slots)];
  const pictures = frames.map((frame) => scene.frames[frame]!);
  const across = ({ columns, rows }: Picture) => (lying ? rows : columns);
  // Averaged down where there are more samples than pixels, never enlarged: between samples it is interpolated.
  const columns = Math.min(acrossPx, Math.max(...pictures.map(across)));
  const lineBytes = frames.length * columns * SAMPLE_BYTES;
  const lines = Math.max(1, Math.min(alongPx, Math.floor(PICTURE_BYTES / lineBytes)));
  const samples = roomForSamples(scene, acrossPx);
  const outBytes = 4 * box.width * box.height;
  const [picturesRoom, table, start, at, share, out] = layRooms(
    lines * lineBytes,
    65536,
    samples.start.byteLength,
    samples.at.byteLength,
    samples.share.byteLength,
    outBytes,
  );
  const rooms = { pictures: picturesRoom, table, start, at, share, out };
  roomBytes(table, 65536).set(code8OfLinear());
  roomBytes(out, outBytes).fill(255);
  pictures.forEach((picture, index) => {
    const { light } = lying
      ? fitLinear(picture, lines, columns)
      : fitLinear(picture, columns, lines);
    const to = new Uint16Array(kernels().memory.buffer, rooms.pictures, (lines * lineBytes) / 2);
    const [alongStep, acrossStep] = lying ? [3, lines * 3] : [columns * 3, 3];
    for (let line = 0; line < lines; line += 1) {
      let into = (line * frames.length + index) * columns * 4;
      let from = line * alongStep;
      for (let column = 0; column < columns; column += 1, from += acrossStep, into += 4) {
        to[into] = light[from]!;
        to[into + 1] = light[from + 1]!;
        to[into + 2] = light[from + 2]!;
      }
    }
  });
  const placeOf = slots.map((frame) => frames.indexOf(frame) * columns * SAMPLE_BYTES);
  const grid = { scene, acrossPx, columns, sampleBytes: SAMPLE_BYTES, placeOf };
  return { ...grid, box, alongPx, lines, lineBytes, samples, rooms };
};

/** An eye: the place it sees at the middle of the print, and how that drifts over it. */
interface EyePlace {
  readonly place: number;
  readonly drift?: Drift | undefined;
}

/** u at a place across the ribs, in lenticules, and along them, 0 … 1. */
const placeSeen = (
  { scene }: Laid,
  { place, drift }: EyePlace,
  slide: Slide,
  at: number,
  along: number,
): number => {
  const fromMiddle = (at - scene.acrossStart) / scene.acrossSpan - 0.5;
  const slid = slide.offset + slide.across * fromMiddle + slide.along * (along - 0.5);
  return place + driftAt(drift, fromMiddle, along) + slid;
};

/** Draws lines of pixels that show the same place under the ribs: that of the middle one. */
const drawLines = (
  laid: Laid,
  view: ProofView,
  eye: EyePlace,
  [from, to]: Lines,
  pass: number,
): void => {
  const { scene, box, rooms, samples, acrossPx, alongPx } = laid;
  const middle = (from + to) / 2 / alongPx;
  const placeAt = (at: number) => placeSeen(laid, eye, view.slide, at, middle);
  findSamples(laid, view, placeAt, samples);
  const { buffer } = kernels().memory;
  const count = samples.start[acrossPx]!;
  new Uint32Array(buffer, rooms.start, acrossPx + 1).set(samples.start);
  new Uint32Array(buffer, rooms.at, count).set(samples.at.subarray(0, count));
  new Uint32Array(buffer, rooms.share, count).set(samples.share.subarray(0, count));
  const [stepAcross, stepAlong] = scene.ribs === 'lying' ? [4 * box.width, 4] : [4, 4 * box.width];
  for (let along = from; along < to; along += 1) {
    const line = Math.floor(((along + 0.5) * laid.lines) / alongPx);
    kernels().proofRow(
      rooms.pictures + line * laid.lineBytes,
      rooms.start,
      rooms.at,
      rooms.share,
      acrossPx,
      rooms.table,
      pass,
      rooms.out + along * stepAlong,
      stepAcross,
    );
  }
};

/** Share of a view slot by which lines that are drawn alike may differ in what they should show. */
const UNSEEN = 0.05;

/** How far the place moves along the ribs, in zones: a slide, and at most what is added at their ends. */
const alongThe = ({ slide, drift, rightDrift }: ProofView) => ({
  slide: slide.along,
  ends: Math.max(...[drift, rightDrift].flatMap((one) => one?.ends ?? 0).map(Math.abs)),
});

/** The first line after `from` that is not drawn like it. */
const endOfAlike = (laid: Laid, { slide, ends }: ReturnType<typeof alongThe>, from: number) => {
  const { scene, alongPx } = laid;
  const unseen = UNSEEN / scene.slots.length;
  const middle = (line: number) => (2 * (line + 0.5)) / alongPx - 1;
  const moved = (to: number) =>
    (Math.abs(slide) * (to - from)) / alongPx +
    ends * Math.abs(middle(to) ** 2 - middle(from) ** 2);
  let to = from + 1;
  while (to < alongPx && moved(to) < unseen) to += 1;
  return to;
};

const drawPrint = (laid: Laid, view: ProofView): void => {
  const { rightPlace, rightDrift } = view;
  const along = alongThe(view);
  for (let from = 0; from < laid.alongPx;) {
    const to = endOfAlike(laid, along, from);
    drawLines(laid, view, view, [from, to], rightPlace === undefined ? ALL : LEFT_IN_RED);
    if (rightPlace !== undefined) {
      const right: EyePlace = { place: rightPlace, drift: rightDrift };
      drawLines(laid, view, right, [from, to], RIGHT_IN_GREEN_AND_BLUE);
    }
    from = to;
  }
};

/** The kernels must be loaded. @param put lays the print on the canvas, where that is here. */
export const createProcessorPainter = (
  put: (print: ProofPixels | undefined, size: ProofSize) => ProofPixels | undefined,
): Painter => {
  let scene: ProofScene | undefined;
  let laid: Laid | undefined;
  return {
    load(next) {
      scene = next;
    },
    paint(view, size) {
      if (scene === undefined) return put(undefined, size);
      const box = printBox(scene, size.width, size.height);
      if (laid?.scene !== scene || laid.box.width !== box.width || laid.box.height !== box.height)
        laid = lay(scene, box);
      if (laid === undefined) return put(undefined, size);
      drawPrint(laid, view);
      const { out } = laid.rooms;
      const bytes = kernels().memory.buffer.slice(out, out + 4 * box.width * box.height);
      return put({ ...box, pixels: new Uint8ClampedArray(bytes) }, size);
    },
  };
};
