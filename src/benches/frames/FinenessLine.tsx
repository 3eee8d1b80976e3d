import { pixelsPerLenticule } from '../../core/frames/shapes.ts';
import { trimmed } from '../../core/units/format.ts';
import type { Job } from '../../job/schema/job.ts';
import { pixelsAcross } from '../../job/facts/place.ts';
import { ribsAcross } from '../../job/facts/sheet.ts';
import { Prose } from '../../ui/index.ts';

/** Twice what the lens shows is all that averaging can use; four times is plainly wasted. */
const USEFUL = 2;
const WASTED = 4;

const sayFineness = (pixels: number, ribs: number): string => {
  const each = pixelsPerLenticule(pixels, ribs);
  const lead = `${Math.round(pixels)} pixels of the coarsest frame lie across ${Math.round(ribs)} ribs, ${trimmed(each, 2)} to each`;
  if (each < 1)
    return `${lead}: too few, the print will be soft. Render at least ${Math.ceil(ribs - 1e-6)} pixels across the ribs.`;
  if (each > WASTED)
    return `${lead}: more than any lens shows. About ${Math.ceil((USEFUL * ribs - 1e-6) / 10) * 10} across would look the same and render faster.`;
  return `${lead}: enough.`;
};

/** Whether the frames are fine enough for the lens, or finer than it can show. */
export const FinenessLine = ({ job }: { readonly job: Job }) => {
  const coarsest = Math.min(...job.frames.map((frame) => pixelsAcross(job, frame)));
  return <Prose>{sayFineness(coarsest, ribsAcross(job))}</Prose>;
};
