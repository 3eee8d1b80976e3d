/**
 * Numbers that a job began with because nobody had given any: the studio's own guess. Whatever the person gives, in
 * whichever field, is guessed no longer, also where it is the number that was there.
 */
import { gridOf } from '../facts/printer.ts';
import type { Guessable, Job } from '../schema/job.ts';
import { setDensity, setLensPitch } from './consequences.ts';
import type { JobEdit } from './edit.ts';

const keepGuessed = (job: Job, keep: (part: Guessable) => boolean): Job => {
  const { guessed, ...rest } = job;
  if (guessed === undefined) return job;
  const still = guessed.filter(keep);
  if (still.length === guessed.length) return job;
  return still.length === 0 ? rest : { ...job, guessed: still };
};

/** What this job's person is to be asked for. A copy of a demo keeps the demo's numbers. */
export const toBeAsked = ({ guessed = [], copyOf }: Job): readonly Guessable[] =>
  copyOf === undefined ? guessed : [];

/** The changed job without the guesses that the change gave a number for. */
export const withoutSaid = (before: Job, after: Job): Job => {
  if (after.guessed === undefined) return after;
  const isOtherSheet = before.stock?.lensId !== after.stock?.lensId;
  const isOtherPitch = before.lens.pitchMm !== after.lens.pitchMm;
  const said: Readonly<Record<Guessable, boolean>> = {
    lensPitch: isOtherSheet || isOtherPitch,
    // One that changes with the pitch was changed in proportion.
    lensThickness:
      isOtherSheet || (!isOtherPitch && before.lens.thicknessMm !== after.lens.thicknessMm),
    printer:
      before.stock?.printerId !== after.stock?.printerId ||
      before.printer.carriageDpi !== after.printer.carriageDpi ||
      before.printer.feedDpi !== after.printer.feedDpi,
    printWidth: before.print.widthMm !== after.print.widthMm,
    distance: before.print.viewingDistanceMm !== after.print.viewingDistanceMm,
  };
  return keepGuessed(after, (part) => !said[part]);
};

/** The height keeps the print's shape, which is that of the frames. */
const setWidth = (job: Job, widthMm: number): Job => ({
  ...job,
  print: {
    ...job.print,
    widthMm,
    heightMm: Number(((job.print.heightMm * widthMm) / job.print.widthMm).toFixed(1)),
  },
});

/** @param value mm, or dpi for the printer's dots: the same both ways, as most printers have */
const give: Readonly<Record<Guessable, (job: Job, value: number) => Job>> = {
  lensPitch: setLensPitch,
  lensThickness: (job, thicknessMm) => ({ ...job, lens: { ...job.lens, thicknessMm } }),
  printer: (job, dpi) => setDensity(job, { acrossDpi: dpi, alongDpi: dpi }),
  printWidth: setWidth,
  distance: (job, viewingDistanceMm) => ({ ...job, print: { ...job.print, viewingDistanceMm } }),
};

/** By the labels of the job sheet, where they can be changed afterwards. */
const labels: Readonly<Record<Guessable, string>> = {
  lensPitch: 'lens pitch',
  lensThickness: 'lens thickness',
  printer: 'dots across',
  printWidth: 'print width',
  distance: 'viewing distance',
};

/** The person's own number in place of a guess. */
export const giveOwn = (part: Guessable, value: number): JobEdit => [
  labels[part],
  (job) => keepGuessed(give[part](job, value), (other) => other !== part),
];

/** What the job counts with now. */
export const guessOf = (job: Job, part: Guessable): number => {
  const { lens, print } = job;
  return {
    lensPitch: lens.pitchMm,
    lensThickness: lens.thicknessMm,
    printer: gridOf(job).acrossDpi,
    printWidth: print.widthMm,
    distance: print.viewingDistanceMm,
  }[part];
};

/** As they are named in a sentence. */
export const guessWords: Readonly<Record<Guessable, string>> = {
  lensPitch: 'lens pitch',
  lensThickness: 'lens thickness',
  printer: 'printer',
  printWidth: 'print size',
  distance: 'viewing distance',
};
