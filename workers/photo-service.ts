/** Reads a photo of the strip or of a failed print, or a scan of a bare lens. The picture stays in this worker. */
import { StudioError } from '../src/contract/errors.ts';
import type {
  LensScanAnswer,
  LensScanRequest,
  MendPhotoAnswer,
  MendPhotoFileRequest,
  PhotoWorker,
  PictureSize,
  Report,
  StripPhotoAnswer,
  StripPhotoRequest,
} from '../src/contract/photo.ts';
import { readMendPhoto } from '../src/core/mend/photo/read-photo.ts';
import { nameInText } from '../src/core/names/shown.ts';
import { measureScan } from '../src/core/pitch/bare/scan.ts';
import type { PhotoPixels } from '../src/core/pitch/photo/photo-terms.ts';
import { readStripPhoto } from '../src/core/pitch/photo/photo.ts';
import type { Checkpoint } from './answer.ts';
import { Calls } from './answer.ts';
import type { DecodedImage } from './decode/index.ts';
import { decodeImage } from './decode/index.ts';
import { statedDensity } from './scan-density.ts';

/** Decoding takes about this share of the whole time. */
const DECODED = 0.3;

/** Decodes the picture and reads it, with checkpoints and progress between. */
const decodeAndRead = async <Answer>(
  { file, name }: Pick<LensScanRequest, 'file' | 'name'>,
  checkpoint: Checkpoint,
  report: Report,
  read: (image: DecodedImage, report: Report) => Answer | Promise<Answer>,
): Promise<Answer & PictureSize> => {
  const image = await decodeImage(file, name);
  report(DECODED);
  await checkpoint();
  const answer = await read(image, (share) => report(DECODED + (1 - DECODED) * share));
  await checkpoint();
  return { widthPx: image.widthPx, heightPx: image.heightPx, ...answer };
};

/** The factor that turns samples into 8-bit codes. A photo never holds linear light. */
const codeScale = ({ encoding }: DecodedImage, name: string): number => {
  if (encoding === 'linear')
    throw new StudioError(
      'unsupported-variant',
      `"${nameInText(name)}" holds a render’s linear light. Save it as JPEG, PNG or 8-bit TIFF.`,
      name,
    );
  return encoding === 'srgb16' ? 1 / 257 : 1;
};

const pixelsOf = (image: DecodedImage, name: string): PhotoPixels => {
  const scale = codeScale(image, name);
  const { widthPx, heightPx, data, channels } = image;
  if (data instanceof Uint8ClampedArray && channels === 4) return { widthPx, heightPx, data };
  const out = new Uint8ClampedArray(widthPx * heightPx * 4).fill(255);
  for (let from = 0, to = 0; from < data.length; from += channels, to += 4)
    for (let c = 0; c < 3; c += 1) out[to + c] = data[from + c]! * scale;
  return { widthPx, heightPx, data: out };
};

/** Rec. 709 weights on codes, not on light: only the places of the ribs matter. */
const lightOf = (image: DecodedImage, name: string): Float32Array => {
  const scale = codeScale(image, name);
  const { data, channels } = image;
  const out = new Float32Array(image.widthPx * image.heightPx);
  for (let i = 0, from = 0; i < out.length; i += 1, from += channels)
    out[i] = scale * (0.2126 * data[from]! + 0.7152 * data[from + 1]! + 0.0722 * data[from + 2]!);
  return out;
};

const readStrip = (
  request: StripPhotoRequest,
  checkpoint: Checkpoint,
  report: Report,
): Promise<StripPhotoAnswer> =>
  decodeAndRead(request, checkpoint, report, (image, tell) => ({
    reading: readStripPhoto({ ...request, pixels: pixelsOf(image, request.name) }, tell),
  }));

const readScan = (
  request: LensScanRequest,
  checkpoint: Checkpoint,
  report: Report,
): Promise<LensScanAnswer> =>
  decodeAndRead(request, checkpoint, report, async (image, tell) => {
    const { widthPx, heightPx } = image;
    const density = statedDensity(new Uint8Array(await request.file.arrayBuffer()));
    const light = lightOf(image, request.name);
    const measure = measureScan({ widthPx, heightPx, light }, tell);
    return { ...(density === undefined ? {} : { density }), measure };
  });

const readMend = (
  request: MendPhotoFileRequest,
  checkpoint: Checkpoint,
  report: Report,
): Promise<MendPhotoAnswer> =>
  decodeAndRead(request, checkpoint, report, (image, tell) => {
    const pictures = request.slots.map((slot) => {
      const picture = request.pictures[slot];
      if (picture === undefined) throw new RangeError(`slots: there is no picture ${slot}`);
      return picture;
    });
    const pixels = pixelsOf(image, request.name);
    return { reading: readMendPhoto({ ...request, pixels, pictures }, tell) };
  });

export const createPhotoService = (): PhotoWorker => {
  const calls = new Calls();
  return {
    readStrip: calls.method(readStrip),
    readScan: calls.method(readScan),
    readMend: calls.method(readMend),
    cancel: calls.cancel,
  };
};
