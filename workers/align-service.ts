/** Finds how two pictures lie on each other, and the light that one lacks beside the other. */
import type { AlignWorker, LaidFile, LayOnRequest, LightRequest } from '../src/contract/align.ts';
import type { FileToRead, DecodeOptions } from '../src/contract/frames.ts';
import type { LightMatch } from '../src/core/frames/align/match-light.ts';
import type { PictureMatch } from '../src/core/frames/align/match-pictures.ts';
import type { Plane } from '../src/core/frames/parallax/plane.ts';
import { planeOfLight } from '../src/core/frames/parallax/plane.ts';
import { after, inverse } from '../src/core/numeric/similarity.ts';
import { resampleLinear, sampleArea } from '../src/core/weave/reduce.ts';
import { axisMap, evenEdges } from '../src/core/weave/resample.ts';
import type { Checkpoint } from './answer.ts';
import { Calls, inSteps } from './answer.ts';
import { decodeImage } from './decode/index.ts';

/** Longest side that is matched: a print shows no more of a picture under most lenses. */
const MATCHED_PX = 1500;
/** Places across the print whose light is compared. */
const PLACES_ACROSS = 96;

interface Small {
  readonly plane: Plane;
  /** Pixels of it to one of the picture. */
  readonly factor: number;
}

/** Smaller by the very same factor along both sides; what is left of a pixel at the far edges is cut off. */
const small = async ({ file, name }: FileToRead, options: DecodeOptions): Promise<Small> => {
  const image = await decodeImage(file, name);
  const { widthPx, heightPx } = image;
  const factor = Math.min(1, MATCHED_PX / Math.max(widthPx, heightPx));
  const axisFor = (px: number) => {
    const samples = Math.max(1, Math.floor(px * factor + 1e-9));
    return axisMap(evenEdges(samples, samples / factor), px);
  };
  const light = resampleLinear(image, axisFor(widthPx), axisFor(heightPx), options);
  return { plane: planeOfLight(light.columns, light.rows, light.pixels), factor };
};

const scale = (factor: number) => ({ a: factor, b: 0, x0: 0, y0: 0 });

const layOn = async (request: LayOnRequest, checkpoint: Checkpoint): Promise<PictureMatch> => {
  const from = await small(request.from, request.options);
  await checkpoint();
  const to = await small(request.to, request.options);
  await checkpoint();
  const { matchPictures } = await import('../src/core/frames/align/match-pictures.ts');
  const match = await inSteps(matchPictures(from.plane, to.plane), checkpoint);
  if (!match.found) return match;
  const between = after(inverse(scale(to.factor)), after(match.between, scale(from.factor)));
  return { ...match, between };
};

const lightOf = async (
  { file, name, area, options }: LaidFile,
  columns: number,
  rows: number,
  checkpoint: Checkpoint,
) => {
  const image = await decodeImage(file, name);
  const edges = { columns: evenEdges(columns, 1), rows: evenEdges(rows, 1) };
  const light = await inSteps(sampleArea(image, area, edges, options), checkpoint);
  const { placesOn } = await import('../src/core/frames/align/match-light.ts');
  return { light, on: placesOn(area, image, columns, rows) };
};

const matchBoth = async (
  { from, to }: LightRequest,
  checkpoint: Checkpoint,
): Promise<LightMatch> => {
  const rows = Math.max(1, Math.round((PLACES_ACROSS * to.area.height) / to.area.width));
  const one = await lightOf(from, PLACES_ACROSS, rows, checkpoint);
  await checkpoint();
  const other = await lightOf(to, PLACES_ACROSS, rows, checkpoint);
  const { matchLight } = await import('../src/core/frames/align/match-light.ts');
  return matchLight(
    one.light,
    other.light,
    one.on.map((on, at) => on & other.on[at]!),
  );
};

export const createAlignService = (): AlignWorker => {
  const calls = new Calls();
  return {
    layOn: calls.method(layOn),
    matchLight: calls.method(matchBoth),
    cancel: calls.cancel,
  };
};
