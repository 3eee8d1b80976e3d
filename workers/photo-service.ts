/** Reads a photo of the strip or of a failed print, or a scan of a bare lens. The picture stays in this worker. */
import { StudioError } from '../src/contract/errors.ts';
import type {
  LensScanAnswer,
  LensScanRequest,
  MendPhotoAnswer,
  MendPhotoFileRequest,
  PhotoWorker,
  StripPhotoAnswer,
  StripPhotoRequest,
} from '../src/contract/photo.ts';
import { readMendPhoto } from '../src/core/mend/photo/read-photo.ts';
import { measureScan } from '../src/core/pitch/bare/scan.ts';
import { readStripPhoto } from '../src/core/pitch/photo/photo.ts';
import { Calls } from './answer.ts';
import type { DecodedImage } from './decode/index.ts';
import { decodeImage } from './decode/index.ts';
import { statedDensity } from './scan-density.ts';

type Checkpoint = () => Promise<void>;
type Report = (share: number) => void;

/** Of the whole time, about, that decoding takes. */
const DECODED = 0.3;

const after =
  (report: Report): Report =>
  (share) =>
    report(DECODED + (1 - DECODED) * share);

/** What the factor is that makes 8-bit codes. Light of a float file is no photo's. */
const codeScale = ({ encoding }: DecodedImage, name: string): number => {
  if (encoding === 'linear')
    throw new StudioError(
      'unsupported-variant',
      `"${name}" holds a render’s linear light. Save it as JPEG, PNG or 8-bit TIFF.`,
      name,
    );
  return encoding === 'srgb16' ? 1 / 257 : 1;
};

const rgbaOf = (image: DecodedImage, name: string): Uint8ClampedArray => {
  const scale = codeScale(image, name);
  const { data, channels } = image;
  if (data instanceof Uint8ClampedArray && channels === 4) return data;
  const out = new Uint8ClampedArray(image.widthPx * image.heightPx * 4).fill(255);
  for (let from = 0, to = 0; from < data.length; from += channels, to += 4)
    for (let c = 0; c < 3; c += 1) out[to + c] = data[from + c]! * scale;
  return out;
};

/** Codes weighed as Rec. 709 does light; only where the ribs lie matters. */
const lightOf = (image: DecodedImage, name: string): Float32Array => {
  const scale = codeScale(image, name);
  const { data, channels } = image;
  const out = new Float32Array(image.widthPx * image.heightPx);
  for (let i = 0, from = 0; i < out.length; i += 1, from += channels)
    out[i] = scale * (0.2126 * data[from]! + 0.7152 * data[from + 1]! + 0.0722 * data[from + 2]!);
  return out;
};

const readStrip = async (
  { file, name, strip, lens, readAtMm, corners }: StripPhotoRequest,
  checkpoint: Checkpoint,
  report: Report,
): Promise<StripPhotoAnswer> => {
  const image = await decodeImage(file, name);
  report(DECODED);
  await checkpoint();
  const { widthPx, heightPx } = image;
  const pixels = { widthPx, heightPx, data: rgbaOf(image, name) };
  const reading = readStripPhoto({ pixels, strip, lens, readAtMm, corners }, after(report));
  await checkpoint();
  return { widthPx, heightPx, reading };
};

const readScan = async (
  { file, name }: LensScanRequest,
  checkpoint: Checkpoint,
  report: Report,
): Promise<LensScanAnswer> => {
  const image = await decodeImage(file, name);
  const density = statedDensity(new Uint8Array(await file.arrayBuffer()));
  report(DECODED);
  await checkpoint();
  const { widthPx, heightPx } = image;
  const measure = measureScan({ widthPx, heightPx, light: lightOf(image, name) }, after(report));
  await checkpoint();
  return { widthPx, heightPx, ...(density === undefined ? {} : { density }), measure };
};

const readMend = async (
  { file, name, pictures, slots, setup, blur, corners, cameraMm }: MendPhotoFileRequest,
  checkpoint: Checkpoint,
  report: Report,
): Promise<MendPhotoAnswer> => {
  const shown = slots.map((slot) => {
    const picture = pictures[slot];
    if (picture === undefined) throw new RangeError(`slots: no picture is numbered ${slot}`);
    return picture;
  });
  const image = await decodeImage(file, name);
  report(DECODED);
  await checkpoint();
  const { widthPx, heightPx } = image;
  const pixels = { widthPx, heightPx, data: rgbaOf(image, name) };
  const request = { pixels, pictures: shown, setup, blur, corners, cameraMm };
  const reading = readMendPhoto(request, after(report));
  await checkpoint();
  return { widthPx, heightPx, reading };
};

export const createPhotoService = (): PhotoWorker => {
  const calls = new Calls();
  return {
    readStrip: (request, report) =>
      calls.run(request.id, (checkpoint) => readStrip(request, checkpoint, report)),
    readScan: (request, report) =>
      calls.run(request.id, (checkpoint) => readScan(request, checkpoint, report)),
    readMend: (request, report) =>
      calls.run(request.id, (checkpoint) => readMend(request, checkpoint, report)),
    cancel: (id) => calls.cancel(id),
  };
};
