/** Makes views from a picture and its depth map, and frames between two others. Keeps the last scenes decoded. */
import { StudioError } from '../src/contract/errors.ts';
import type { DecodeOptions, FileToRead } from '../src/contract/frames.ts';
import type {
  BetweenRequest,
  DepthScene,
  FilledRequest,
  MadeView,
  SynthWorker,
  ViewRequest,
} from '../src/contract/synth.ts';
import { code8OfLinear } from '../src/core/colour/srgb.ts';
import { greyPng } from '../src/core/encode/png-grey.ts';
import { matchPyramids } from '../src/core/frames/parallax/match.ts';
import type { Plane } from '../src/core/frames/parallax/plane.ts';
import { planeOfLight, pyramidOf } from '../src/core/frames/parallax/plane.ts';
import type { MovingFrame } from '../src/core/frames/synth/between.ts';
import { frameBetween, shiftOfPixels } from '../src/core/frames/synth/between.ts';
import { faultOfMeaning, partsOf } from '../src/core/frames/synth/depth-map.ts';
import type { FilledPlaces } from '../src/core/frames/synth/filled-places.ts';
import { keptPlaces } from '../src/core/frames/synth/filled-places.ts';
import { fitDepth, sameShape } from '../src/core/frames/synth/fit-depth.ts';
import type { MadePicture } from '../src/core/frames/synth/view.ts';
import { inventedShare, viewFrom } from '../src/core/frames/synth/view.ts';
import { nameInText } from '../src/core/names/shown.ts';
import type { ReducedFrame } from '../src/core/weave/reduce.ts';
import type { Checkpoint } from './answer.ts';
import { Calls, inSteps } from './answer.ts';
import type { DecodedImage } from './decode/image.ts';
import { decodeImage } from './decode/index.ts';
import { readDepthFile } from './depth/index.ts';
import { pngOf } from './png-of.ts';
import { lastFew } from './remembered.ts';
import { scaled } from './scaled.ts';

/** A worker needs about 25 bytes for each pixel: at most 600 MB. */
const MOST_MADE_PX = 24e6;
/** Width at which frames are matched; disparities are then scaled to the frames' own size. */
const MATCHED_PX = 800;
/** Depths that differ by less than this many pixels of motion belong to one surface. */
const ONE_SURFACE_PX = 0.5;
const KEPT_AT_MOST = 2;

interface Scene {
  readonly picture: ReducedFrame;
  readonly parts: Float32Array;
}
const keepScene = lastFew<Scene>(KEPT_AT_MOST);
const keepPair = lastFew<readonly [MovingFrame, MovingFrame]>(KEPT_AT_MOST);

const checkMade = ({ widthPx, heightPx }: DecodedImage, name: string): void => {
  if (widthPx * heightPx <= MOST_MADE_PX) return;
  throw new StudioError(
    'too-large',
    `"${nameInText(name)}" is ${widthPx} × ${heightPx} pixels; views are made up to ${MOST_MADE_PX / 1e6} megapixels. ` +
      'Make the picture smaller: the Shoot bench gives the size this lens can show.',
    name,
  );
};

const openScene = async (request: DepthScene, checkpoint: Checkpoint): Promise<Scene> => {
  const { options, meaning, distance, depth, mostPx, mostSlide } = request;
  const fault = faultOfMeaning(meaning, distance);
  if (fault !== undefined) throw new StudioError('internal', fault);
  const map = await readDepthFile(depth);
  await checkpoint();
  const image = await decodeImage(request.picture.file, request.picture.name);
  if (mostPx === 0) checkMade(image, request.picture.name);
  if (!sameShape(image, map))
    throw new StudioError(
      'internal',
      `"${nameInText(depth.name)}" is ${map.widthPx} × ${map.heightPx} pixels, the picture "${nameInText(request.picture.name)}" ` +
        `${image.widthPx} × ${image.heightPx}: their shapes differ, so depths would fall on the wrong things. ` +
        'Choose the depth map that was rendered with this picture, uncropped; it may be smaller, in the same shape.',
      depth.name,
    );
  await checkpoint();
  const scale = mostPx === 0 ? 1 : Math.min(1, mostPx / Math.max(image.widthPx, image.heightPx));
  const columns = Math.max(1, Math.round(image.widthPx * scale));
  const rows = Math.max(1, Math.round(image.heightPx * scale));
  const picture = scaled(image, columns, rows, options);
  await checkpoint();
  const grid = { ...map, parts: partsOf(map, meaning, distance) };
  const small = scaled(image, map.widthPx, map.heightPx, options);
  await checkpoint();
  const smooth = ONE_SURFACE_PX / Math.max(1e-6, Math.abs(mostSlide) * columns);
  return { picture, parts: fitDepth(grid, picture, small, smooth) };
};

const sceneOf = (request: DepthScene, checkpoint: Checkpoint): Promise<Scene> => {
  const { picture, depth, options, meaning, distance, mostSlide, mostPx } = request;
  const key = [picture.key, depth.key, options, meaning, distance, mostSlide, mostPx];
  return keepScene(JSON.stringify(key), () => openScene(request, checkpoint));
};

const codesOf = ({ pixels }: MadePicture): Uint8Array => {
  const codes = code8OfLinear();
  const rgb = new Uint8Array(pixels.length);
  for (let i = 0; i < rgb.length; i += 1) rgb[i] = codes[pixels[i]!]!;
  return rgb;
};

const answer = async (made: MadePicture, checkpoint: Checkpoint): Promise<MadeView> => {
  const filled = keptPlaces(made);
  return {
    file: await pngOf(codesOf(made), made.columns, made.rows, checkpoint),
    columns: made.columns,
    rows: made.rows,
    invented: inventedShare(made),
    filled,
    filledFile: new Blob([greyPng(filled.columns, filled.rows, filled.holes)], {
      type: 'image/png',
    }),
  };
};

const makeView = async (request: ViewRequest, checkpoint: Checkpoint): Promise<MadeView> => {
  const { picture, parts } = await sceneOf(request, checkpoint);
  const { keyZ, distance, slide } = request;
  const place = { slide: slide * picture.columns, keyPart: keyZ / (distance + keyZ) };
  return answer(await inSteps(viewFrom(picture, parts, place), checkpoint), checkpoint);
};

interface ReadyFrame {
  readonly picture: ReducedFrame;
  readonly matched: ReducedFrame;
  readonly levels: readonly Plane[];
}

const readFrame = async (
  { file, name }: FileToRead,
  options: DecodeOptions,
): Promise<ReadyFrame> => {
  const image = await decodeImage(file, name);
  checkMade(image, name);
  const { widthPx, heightPx } = image;
  const scale = Math.min(1, MATCHED_PX / widthPx);
  const matched = scaled(
    image,
    Math.max(1, Math.round(widthPx * scale)),
    Math.max(1, Math.round(heightPx * scale)),
    options,
  );
  const levels = pyramidOf(planeOfLight(matched.columns, matched.rows, matched.pixels));
  return { picture: scaled(image, widthPx, heightPx, options), matched, levels };
};

const moving = async (
  frame: ReadyFrame,
  other: ReadyFrame,
  checkpoint: Checkpoint,
): Promise<MovingFrame> => {
  const { picture, matched, levels } = frame;
  const field = await inSteps(matchPyramids(levels, other.levels), checkpoint);
  const [from, to] = [levels[0], other.levels[0]] as [Plane, Plane];
  const found = await inSteps(shiftOfPixels(from, to, field), checkpoint);
  const wider = picture.columns / matched.columns;
  const grid = {
    widthPx: matched.columns,
    heightPx: matched.rows,
    parts: found.map((dx) => dx * wider),
  };
  return { picture, shift: fitDepth(grid, picture, matched, ONE_SURFACE_PX) };
};

const openPair = async (
  { first, second, options }: BetweenRequest,
  checkpoint: Checkpoint,
): Promise<readonly [MovingFrame, MovingFrame]> => {
  const one = await readFrame(first, options);
  await checkpoint();
  const two = await readFrame(second, options);
  if (one.picture.columns !== two.picture.columns || one.picture.rows !== two.picture.rows)
    throw new StudioError(
      'internal',
      `"${nameInText(first.name)}" is ${one.picture.columns} × ${one.picture.rows} pixels and "${nameInText(second.name)}" ` +
        `${two.picture.columns} × ${two.picture.rows}: frames can be made only between two of one size.`,
      second.name,
    );
  await checkpoint();
  return [await moving(one, two, checkpoint), await moving(two, one, checkpoint)];
};

const makeBetween = async (request: BetweenRequest, checkpoint: Checkpoint): Promise<MadeView> => {
  const key = JSON.stringify([request.first.key, request.second.key, request.options]);
  const [first, second] = await keepPair(key, () => openPair(request, checkpoint));
  const work = frameBetween(first, second, request.place);
  return answer(await inSteps(work, checkpoint), checkpoint);
};

/** Reads the numbers of the file themselves, not colours, which a browser may change. */
const readFilled = async ({ file, name }: FilledRequest): Promise<FilledPlaces> => {
  const { widthPx, heightPx, values } = await readDepthFile({ key: '', file, name });
  if (!(values instanceof Uint8Array))
    throw new StudioError('damaged', `"${nameInText(name)}" is not an 8-bit grey picture.`, name);
  return { columns: widthPx, rows: heightPx, holes: Uint8Array.from(values) };
};

const buffersOf = ({ filled }: MadeView): Transferable[] => [filled.holes.buffer];

export const createSynthService = (): SynthWorker => {
  const calls = new Calls();
  return {
    makeView: calls.method(makeView, buffersOf),
    makeBetween: calls.method(makeBetween, buffersOf),
    readFilled: calls.method(readFilled, ({ holes }) => [holes.buffer]),
    cancel: calls.cancel,
  };
};
