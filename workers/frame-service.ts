/** Looks at frames as they arrive and prepares them for a sheet. */
import type {
  FrameFacts,
  FrameWorker,
  LookRequest,
  PrepareRequest,
  PrepareResult,
  WeighRequest,
  PreparedFrame,
} from '../src/contract/frames.ts';
import { PREPARED_IN_MEMORY_BYTES } from '../src/contract/disk.ts';
import { LINEAR_MAX } from '../src/core/colour/srgb.ts';
import { fingerprintOf } from '../src/core/frames/fingerprint.ts';
import { easeFrame } from '../src/core/weave/ease.ts';
import { encodeOffWhite, encodeProof, thumbnailOf } from '../src/core/weave/proof.ts';
import type { ReducedFrame } from '../src/core/weave/reduce.ts';
import { reduceInSteps } from '../src/core/weave/reduce.ts';
import { softenFrame } from '../src/core/weave/soften.ts';
import type { Checkpoint } from './answer.ts';
import { Calls, inSteps } from './answer.ts';
import { decodeImage, decodingBytes } from './decode/index.ts';
import type { DecodedImage } from './decode/image.ts';
import { writePrepared } from './prepared-disk.ts';

const look = async (
  image: DecodedImage,
  request: LookRequest,
  checkpoint: Checkpoint,
): Promise<FrameFacts> => {
  await checkpoint();
  const small = thumbnailOf(image, request.thumbnailPx, request.options.exposureStops);
  const picture =
    image.alpha === undefined ? encodeProof(small) : encodeOffWhite(small, image, image.alpha);
  const canvas = new OffscreenCanvas(picture.columns, picture.rows);
  const pixels = new Uint8ClampedArray(picture.pixels.buffer);
  canvas.getContext('2d')?.putImageData(new ImageData(pixels, picture.columns, picture.rows), 0, 0);
  return {
    widthPx: image.widthPx,
    heightPx: image.heightPx,
    kind: image.kind,
    sceneLinear: image.encoding === 'linear',
    ...(image.profile === undefined ? {} : { profile: image.profile }),
    thumbnail: await canvas.convertToBlob({ type: 'image/png' }),
    meanLight: meanLight(small),
    fingerprint: fingerprintOf(image.widthPx, image.heightPx, image.data),
  };
};

/** Average luminance of a picture, 0 … 1 (Rec. 709 weights on linear light). */
const meanLight = ({ pixels }: ReducedFrame): number => {
  let sum = 0;
  for (let i = 0; i < pixels.length; i += 3)
    sum += 0.2126 * pixels[i]! + 0.7152 * pixels[i + 1]! + 0.0722 * pixels[i + 2]!;
  return sum / (pixels.length / 3) / LINEAR_MAX;
};

const prepare = async (
  image: DecodedImage,
  request: PrepareRequest,
  checkpoint: Checkpoint,
): Promise<PrepareResult> => {
  const { ground = 'white' } = request;
  await checkpoint();
  const reduced = await inSteps(
    reduceInSteps(image, request.sheet, request.area, {
      ...request.options,
      ground,
      alongSamples: request.alongSamples,
    }),
    checkpoint,
  );
  await checkpoint();
  if (request.softening !== undefined) {
    const { sheet, area, softening } = request;
    const { widthPx, heightPx } = image;
    const laid = { sheet, area, widthPx, heightPx };
    for (const _rows of softenFrame(reduced, laid, softening)) await checkpoint();
  }
  if (request.ease !== undefined) {
    easeFrame(reduced, request.ease);
    await checkpoint();
  }
  const proof = request.proofPx > 0 ? encodeProof(reduced, request.proofPx) : undefined;
  const frame = await store(reduced);
  return { frame, ...(proof === undefined ? {} : { proof }) };
};

/** Keeps a small frame in memory and writes a large one to the private disk, if there is one. */
const store = async ({ pixels, columns, rows }: ReducedFrame): Promise<PreparedFrame> => {
  if (pixels.byteLength > PREPARED_IN_MEMORY_BYTES) {
    const written = await writePrepared(pixels);
    if (written !== undefined)
      return { pixels: written.file, columns, rows, diskName: written.diskName };
  }
  return { pixels: new Blob([pixels]), columns, rows };
};

export const createFrameService = (): FrameWorker => {
  const calls = new Calls();
  let kept: { readonly id: string; readonly image: DecodedImage } | undefined;
  /** The picture that `look` kept under this id; it is no longer kept then. */
  const takeKept = (id: string): DecodedImage | undefined => {
    const image = kept?.id === id ? kept.image : undefined;
    kept = undefined;
    return image;
  };
  return {
    weigh: calls.method(({ file, name }: WeighRequest) => decodingBytes(file, name)),
    look: calls.method(async (request: LookRequest, checkpoint) => {
      kept = undefined;
      const image = await decodeImage(request.file, request.name);
      const facts = await look(image, request, checkpoint);
      if (request.keep) kept = { id: request.id, image };
      return facts;
    }),
    prepare: calls.method(
      async (request: PrepareRequest, checkpoint) => {
        const { id, file, name, ground = 'white' } = request;
        const image = takeKept(id) ?? (await decodeImage(file, name, ground));
        return prepare(image, request, checkpoint);
      },
      ({ proof }) => (proof === undefined ? [] : [proof.pixels.buffer]),
    ),
    cancel: calls.cancel,
  };
};
