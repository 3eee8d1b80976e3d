/** How much of each picture the paper cannot show, and what a flip loses by it. */
import { missedColours } from '../../calls/colour.ts';
import type { Picture } from '../../core/proof/scene.ts';
import { slotPicturesOf } from '../../job/facts/slot-pictures.ts';
import type { Job } from '../../job/schema/job.ts';
import type { Studio } from '../studio.ts';
import { lookOf } from './look.ts';

export interface MissedFrame {
  readonly id: string;
  readonly name: string;
  /** Of its area, 0 … 1. */
  readonly share: number;
  /** Of a flip: what differs from the next picture on screen and not in print; undefined for the last, and for depth. */
  readonly lost: number | undefined;
}

/** Dots along an edge: an area is counted to about a thousandth. */
const GRID = 200;

const thinned = ({ pixels, columns, rows }: Picture): Uint8Array => {
  const codes = new Uint8Array(GRID * GRID * 3);
  let to = 0;
  for (let y = 0; y < GRID; y += 1) {
    const row = Math.floor(((y + 0.5) * rows) / GRID);
    for (let x = 0; x < GRID; x += 1) {
      const from = (row * columns + Math.floor(((x + 0.5) * columns) / GRID)) * 4;
      for (let c = 0; c < 3; c += 1) codes[to++] = pixels[from + c] ?? 0;
    }
  }
  return codes;
};

/** Of the frames that are ready; undefined where there is nothing to say. @throws StudioError */
export const missedOf = async (
  studio: Studio,
  job: Job,
  signal: AbortSignal,
): Promise<readonly MissedFrame[] | undefined> => {
  const look = await lookOf(studio, job, { printLook: 'print', gamutWarning: false });
  if (look === undefined) return undefined;
  const { prepared } = studio.work.getState();
  const ready = slotPicturesOf(job).pictures.flatMap(({ id, frame, ground }) => {
    const picture = ground === undefined ? prepared.get(id)?.proof : undefined;
    return picture === undefined ? [] : [{ id, name: frame.name, codes: thinned(picture) }];
  });
  if (ready.length === 0) return undefined;
  const pictures = ready.map(({ codes }) => codes);
  const outcome = await missedColours({ look: look.table, pictures }, signal);
  if (!outcome.done) return undefined;
  const { shares, lost } = outcome.value;
  const isFlip = job.recipe?.kind === 'flip';
  return ready.map(({ id, name }, i) => ({
    id,
    name,
    share: shares[i] ?? 0,
    lost: isFlip ? lost[i] : undefined,
  }));
};
