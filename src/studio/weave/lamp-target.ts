/** Weaving the target for a lamp, and the edits that come of reading it. */
import type { LampCurve } from '../../core/colour/lamp.ts';
import type { LampTargetSpec } from '../../core/colour/lamp-target.ts';
import {
  LAMP_PATCHES,
  PICTURE_SHAPE,
  curveOfPatch,
  lampTargetSize,
} from '../../core/colour/lamp-target.ts';
import type { Job } from '../../job/schema/job.ts';
import { framesInSlots } from '../../job/facts/sheet.ts';
import { tryChange } from '../../state/change.ts';
import { documentStore } from '../../state/document.ts';
import { workStore } from '../../state/work.ts';
import { targetRun, targetToWrite } from './target.ts';

const run = targetRun('lampTarget');

export const stopLampTarget = (): void => run.stop();

const PICTURE_COLUMNS = 112;

/** The middle of the frame in the middle slot, once it is prepared. */
const pieceOf = (job: Job): LampTargetSpec['picture'] => {
  const frame = framesInSlots(job)[Math.floor(job.viewSlots / 2)];
  const proof =
    frame === undefined ? undefined : workStore.getState().prepared.get(frame.id)?.proof;
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

/** Does nothing while one is being woven. */
export const weaveLampTarget = (): Promise<void> =>
  run.start(() => {
    const { job } = documentStore.getState();
    const picture = pieceOf(job);
    const spec: LampTargetSpec = {
      kind: 'lamp-target',
      acrossDpi: job.printer.acrossDpi,
      alongDpi: job.printer.alongDpi,
      ribs: job.ribs,
      ...(picture === undefined ? {} : { picture }),
    };
    return targetToWrite({
      spec,
      size: lampTargetSize(spec),
      name: 'lamp target',
      title: 'Lamp target',
      description:
        `${LAMP_PATCHES} patches, denser from line to line, warmer from left to right. Print at ` +
        '100 %, on the paper of the sheet, and hang it before the lamp.',
    });
  });

export const DEFAULT_LAMP: LampCurve = { density: 1.6, warmth: 0 };

export const setLamp = (label: string, lamp: LampCurve | undefined): string | undefined =>
  tryChange(label, ({ lamp: _, ...job }) => (lamp === undefined ? job : { ...job, lamp }));

/** @returns why it was refused. */
export const readLampPatch = (patch: number): string | undefined => {
  const curve = curveOfPatch(patch);
  return curve === undefined
    ? `Patches are numbered 1 to ${LAMP_PATCHES}, whole numbers.`
    : setLamp('lamp patch', curve);
};
