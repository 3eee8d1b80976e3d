/** Weaves the lamp target. */
import type { LampTargetSpec } from '../../core/colour/lamp-target.ts';
import { LAMP_PATCHES, PICTURE_SHAPE, lampTargetSize } from '../../core/colour/lamp-target.ts';
import { framesInSlots } from '../../job/facts/sheet.ts';
import type { Job } from '../../job/schema/job.ts';
import type { Studio } from '../studio.ts';
import type { Asked } from './go-on.ts';
import { weaveTarget } from './target.ts';
import { gridOf } from '../../job/facts/printer.ts';

const PICTURE_COLUMNS = 112;

/** The middle of the frame in the middle slot; undefined until it is prepared. */
const pieceOf = ({ work }: Studio, job: Job): LampTargetSpec['picture'] => {
  const frame = framesInSlots(job)[Math.floor(job.viewSlots / 2)];
  const proof = frame === undefined ? undefined : work.getState().prepared.get(frame.id)?.proof;
  if (proof === undefined) return undefined;
  const shape = job.print.widthMm / job.print.heightMm;
  const [shareX, shareY] =
    shape > PICTURE_SHAPE ? [PICTURE_SHAPE / shape, 1] : [1, shape / PICTURE_SHAPE];
  const rows = Math.round(PICTURE_COLUMNS / PICTURE_SHAPE);
  const at = (index: number, count: number, share: number, size: number) =>
    Math.min(size - 1, Math.floor(((1 - share) / 2 + ((index + 0.5) / count) * share) * size));
  const rgb: number[] = [];
  for (let row = 0; row < rows; row += 1)
    for (let column = 0; column < PICTURE_COLUMNS; column += 1) {
      const x = at(column, PICTURE_COLUMNS, shareX, proof.columns);
      const from = (at(row, rows, shareY, proof.rows) * proof.columns + x) * 4;
      rgb.push(...proof.pixels.subarray(from, from + 3));
    }
  return { columns: PICTURE_COLUMNS, rows, rgb };
};

export const weaveLampTarget = (studio: Studio, asked?: Asked): Promise<void> =>
  weaveTarget(
    studio,
    'lampTarget',
    (job) => {
      const picture = pieceOf(studio, job);
      const spec: LampTargetSpec = {
        kind: 'lamp-target',
        acrossDpi: gridOf(job).acrossDpi,
        alongDpi: gridOf(job).alongDpi,
        ribs: job.ribs,
        ...(picture === undefined ? {} : { picture }),
      };
      return {
        spec,
        size: lampTargetSize(spec),
        name: 'lamp target',
        title: 'Lamp target',
        description:
          `${LAMP_PATCHES} patches, denser from line to line, warmer from left to right. Print at ` +
          '100 %, on the paper of the sheet, and hang it before the lamp.',
      };
    },
    asked,
  );
