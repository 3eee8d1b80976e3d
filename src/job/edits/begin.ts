/** How a job begins: from the person's last one, from frames that were dropped, from a demo print. */
import { MM_PER_INCH } from '../../core/units/units.ts';
import { printsDepth } from '../facts/prints-depth.ts';
import type { Job } from '../schema/job.ts';
import { guessable, newJob } from '../schema/job.ts';
import { gridOf } from '../facts/printer.ts';

/**
 * A demo print is there to be looked at: what a person changes is a copy of their own. One that was begun before
 * the demo's frames had come says where they are to come from: the page may be loaded anew meanwhile.
 */
export const ownCopyOf = ({ demo, ...job }: Job): Job => ({
  ...job,
  name: `My copy of ${job.name}`,
  ...(demo === undefined ? {} : { copyOf: demo, guessed: [...guessable] }),
  ...(demo === undefined || job.frames.length > 0 ? {} : { framesOf: demo }),
});

/** What stays on the table from one job to the next: lens, printer, paper, and how they are used. */
const workshop = [
  'lens',
  'provedPitch',
  'ribs',
  'printer',
  'print',
  'viewSlots',
  'columns',
  'eyesApartMm',
  'exactness',
  'stock',
  'guessed',
] as const satisfies readonly (keyof Job)[];

/**
 * A job without frames on the lens and printer of the person's last one.
 * @param last undefined: there is none, so that all its numbers are guessed
 */
export const beginJob = (last: Job | undefined, name = newJob().name): Job => ({
  ...newJob(),
  ...(last === undefined
    ? { guessed: [...guessable] }
    : Object.fromEntries(workshop.flatMap((key) => (key in last ? [[key, last[key]]] : [])))),
  name,
});

/** More true views than dots still sharpen depth; beyond twice as many, hardly (tests/golden/more-views). */
const VIEWS_A_DOT = 2;

const roundMm = (mm: number): number => Math.round(mm * 10) / 10;

/**
 * The job for frames of this shape and number: a print as wide as before and as high as they are, and a view
 * slot for each frame as long as each still gets a printed dot under the rib; for depth, half a dot.
 */
export const fitToFrames = (
  job: Job,
  count: number,
  { widthPx, heightPx }: { readonly widthPx: number; readonly heightPx: number },
): Job => {
  const dotsUnderRib = Math.floor((job.lens.pitchMm * gridOf(job).acrossDpi) / MM_PER_INCH + 0.01);
  const room = printsDepth(job) ? Math.min(200, VIEWS_A_DOT * dotsUnderRib) : dotsUnderRib;
  const heightMm = roundMm((job.print.widthMm * heightPx) / widthPx);
  return {
    ...job,
    print: { ...job.print, heightMm: Math.min(20000, Math.max(5, heightMm)) },
    viewSlots: count >= 2 && count <= room ? count : job.viewSlots,
  };
};
