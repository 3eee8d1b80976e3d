/** Animations in picture formats (GIF, WebP, PNG, AVIF), decoded by the browser. */
import type { Checkpoint } from '../answer.ts';
import { checkSize, unsupported } from '../decode/image.ts';
import type { OpenClip } from './clip.ts';
import { MOST_FRAMES, noFrames, tooMany } from './clip.ts';

/** Microseconds in a second: the browser's unit of time for frames. */
const MICRO = 1e6;

const decoderFor = async (file: Blob, type: string, name: string): Promise<ImageDecoder> => {
  if (typeof ImageDecoder === 'undefined' || !(await ImageDecoder.isTypeSupported(type)))
    throw unsupported(
      name,
      'is an animation, which this browser does not take apart',
      'Save its frames as PNG files, or save it as MP4 or WebM, and add those.',
    );
  return new ImageDecoder({ data: await file.arrayBuffer(), type, preferAnimation: true });
};

/** Sizes and times stand with the frames, so each is decoded once to learn them. */
const factsOf = async (decoder: ImageDecoder, name: string, checkpoint: Checkpoint) => {
  await decoder.tracks.ready;
  await decoder.completed;
  const count = decoder.tracks.selectedTrack?.frameCount ?? 0;
  if (count === 0) throw noFrames(name);
  if (count > MOST_FRAMES) throw tooMany(name);
  const timesS: number[] = [];
  let [widthPx, heightPx, endS] = [0, 0, 0];
  for (let frameIndex = 0; frameIndex < count; frameIndex += 1) {
    const { image } = await decoder.decode({ frameIndex });
    [widthPx, heightPx] = [image.displayWidth, image.displayHeight];
    if (frameIndex === 0) checkSize({ widthPx, heightPx }, name);
    timesS.push(image.timestamp / MICRO);
    endS = (image.timestamp + (image.duration ?? 0)) / MICRO;
    image.close();
    await checkpoint();
  }
  return { widthPx, heightPx, timesS, endS };
};

/** @param type the media type that its first bytes say. */
export const openAnimation = async (
  file: Blob,
  type: string,
  name: string,
  checkpoint: Checkpoint,
): Promise<OpenClip> => {
  const decoder = await decoderFor(file, type, name);
  try {
    return {
      ...(await factsOf(decoder, name, checkpoint)),
      frames: async function* (numbers) {
        for (const frameIndex of numbers) {
          const { image } = await decoder.decode({ frameIndex });
          yield {
            draw: (context, width, height) => context.drawImage(image, 0, 0, width, height),
            close: () => image.close(),
          };
        }
      },
      close: () => decoder.close(),
    };
  } catch (error) {
    decoder.close();
    throw error;
  }
};
