/** A decoded picture at another size, in linear light. */
import type { DecodeOptions } from '../src/contract/frames.ts';
import type { ReducedFrame } from '../src/core/weave/reduce.ts';
import { resampleLinear } from '../src/core/weave/reduce.ts';
import { axisMap, evenEdges } from '../src/core/weave/resample.ts';
import type { DecodedImage } from './decode/image.ts';

export const scaled = (
  image: DecodedImage,
  columns: number,
  rows: number,
  options: DecodeOptions,
): ReducedFrame =>
  resampleLinear(
    image,
    axisMap(evenEdges(columns, image.widthPx), image.widthPx),
    axisMap(evenEdges(rows, image.heightPx), image.heightPx),
    options,
  );
