/** Runs the decoder where the studio runs it, in a worker, and answers with data or the error. */
import { toWorkError } from '../../../src/contract/errors.ts';
import type { WorkError } from '../../../src/contract/errors.ts';
import { decodeImage } from '../../../workers/decode/index.ts';
import type { DecodedImage } from '../../../workers/decode/index.ts';

export type Answer =
  | { image: Omit<DecodedImage, 'data'>; pixels: number[]; milliseconds: number }
  | { error: WorkError };

export interface Question {
  bytes: ArrayBuffer;
  name: string;
  /** Pixel coordinates to answer with, x then y; channels follow each other in the answer. */
  at: readonly (readonly [x: number, y: number])[];
}

const answer = async ({ bytes, name, at }: Question): Promise<Answer> => {
  try {
    const start = performance.now();
    const { data, ...image } = await decodeImage(new Blob([bytes]), name);
    const milliseconds = performance.now() - start;
    const pixels = at.flatMap(([x, y]) => {
      const first = (y * image.widthPx + x) * image.channels;
      return [...data.subarray(first, first + image.channels)];
    });
    return { image, pixels, milliseconds };
  } catch (error) {
    return { error: toWorkError(error) };
  }
};

addEventListener('message', (event: MessageEvent<Question>) => {
  void answer(event.data).then((result) => {
    postMessage(result);
  });
});
