/** Takes shelf entries into a job, and makes entries from a job. */
import type { PaperName } from '../core/pitch/paper.ts';
import { papers } from '../core/pitch/paper.ts';
import { trimmed } from '../core/units/format.ts';
import { mm, mmToLpi } from '../core/units/units.ts';
import { setPrinter, unproved } from '../job/edits/consequences.ts';
import { editsOf } from '../job/edits/edit.ts';
import { setStrip } from '../job/facts/pitch.ts';
import type { ChangeOf } from '../job/schema/changed.ts';
import { changed } from '../job/schema/changed.ts';
import type { Job } from '../job/schema/job.ts';
import type { JobStock } from '../job/schema/stock.ts';
import type {
  EntryOf,
  LensEntry,
  PaperEntry,
  PrinterEntry,
  Shelves,
  ShelfName,
} from './shelves.ts';
import { freeName } from './shelves.ts';

export const stockOf = (job: Job): JobStock => job.stock ?? {};

export const setStock = (job: Job, change: ChangeOf<JobStock>): Job => ({
  ...job,
  stock: changed(stockOf(job), change),
});

export const changeStock = editsOf('stock', setStock);

/** Equal but for rounding, as two typings of one number are. */
const same = (a: number | undefined, b: number | undefined): boolean =>
  a === b || (a !== undefined && b !== undefined && Math.abs(a - b) <= 1e-6 * Math.abs(a));

/** Whether the job's ribs have these measures. */
export const hasRibsOf = (
  { lens }: Job,
  of: Pick<LensEntry, 'pitchMm' | 'thicknessMm' | 'index' | 'radiusMm'>,
): boolean =>
  same(of.pitchMm, lens.pitchMm) &&
  same(of.thicknessMm, lens.thicknessMm) &&
  same(of.index, lens.index) &&
  same(of.radiusMm, lens.radiusMm);

export const isLensOfJob = (job: Job, entry: LensEntry): boolean =>
  hasRibsOf(job, entry) && same(entry.supplierAngleDeg, job.lens.supplierAngleDeg);

export const isPrinterOfJob = (job: Job, entry: PrinterEntry): boolean =>
  same(entry.acrossDpi, job.printer.carriageDpi) && same(entry.alongDpi, job.printer.feedDpi);

/** Whether the job uses this entry. `differs`: it was chosen, but the job's numbers were changed since. */
export const standingOf = <Shelf extends ShelfName>(
  job: Job,
  shelf: Shelf,
  entry: EntryOf[Shelf],
): 'in-use' | 'differs' | 'idle' => {
  const { lensId, printerId, paperId } = stockOf(job);
  const chosen = { lenses: lensId, printers: printerId, papers: paperId }[shelf];
  if (chosen !== entry.id) return 'idle';
  if (shelf === 'lenses' && !isLensOfJob(job, entry as LensEntry)) return 'differs';
  if (shelf === 'printers' && !isPrinterOfJob(job, entry as PrinterEntry)) return 'differs';
  return 'in-use';
};

const isOther = (chosen: string | undefined, id: string) => chosen !== undefined && chosen !== id;

/**
 * Removes a pitch that was proved with another lens sheet, even one with the same numbers.
 * @param shelves where the entry of the present lens stands: an offcut is a piece of its sheet
 */
export const takeLens = (job: Job, entry: LensEntry, shelves: Shelves): Job => {
  const unchanged = isLensOfJob(job, entry);
  const sheetOf = (id: string | undefined) =>
    shelves.lenses.find((one) => one.id === id)?.offcutOf ?? id;
  const sheet = entry.offcutOf ?? entry.id;
  const from = unchanged && !isOther(sheetOf(stockOf(job).lensId), sheet) ? job : unproved(job);
  const chosen = setStock(from, { lensId: entry.id });
  if (unchanged) return chosen;
  const { pitchMm, thicknessMm, index, radiusMm, supplierAngleDeg } = entry;
  const lens: Job['lens'] = {
    pitchMm,
    thicknessMm,
    index,
    ...(radiusMm === undefined ? {} : { radiusMm }),
    ...(supplierAngleDeg === undefined ? {} : { supplierAngleDeg }),
  };
  return { ...chosen, lens };
};

export const takePrinter = (job: Job, entry: PrinterEntry): Job => {
  const { acrossDpi: carriageDpi, alongDpi: feedDpi, marginMm } = entry;
  const from = isOther(stockOf(job).printerId, entry.id) ? unproved(job) : job;
  const next = setStock(setPrinter(from, { carriageDpi, feedDpi }), { printerId: entry.id });
  return marginMm === undefined ? next : setStrip(next, { marginMm });
};

/** The pitch strip takes the paper's size and kind too: a pitch holds for one kind of paper. */
export const takePaper = (job: Job, entry: PaperEntry): Job => {
  const { widthMm, heightMm } = entry;
  const [short, long] = [Math.min(widthMm, heightMm), Math.max(widthMm, heightMm)];
  const known = (Object.keys(papers) as PaperName[]).find(
    (name) => same(papers[name].sizeMm[0], short) && same(papers[name].sizeMm[1], long),
  );
  const paper =
    known === undefined
      ? { paper: 'own' as const, paperWidthMm: widthMm, paperHeightMm: heightMm }
      : { paper: known, onItsSide: widthMm > heightMm };
  const from = isOther(job.provedPitch?.paper, entry.name) ? unproved(job) : job;
  return setStrip(setStock(from, { paperId: entry.id }), {
    ...paper,
    paperKind: entry.name.slice(0, 80),
  });
};

/** The job does not know the size of its lens sheet: the entry begins with the print's size. */
export const lensFromJob = (job: Job, shelves: Shelves, id: string): LensEntry => {
  const { widthMm, heightMm } = job.print;
  const [across, along] = job.ribs === 'upright' ? [widthMm, heightMm] : [heightMm, widthMm];
  const name = `${trimmed(mmToLpi(mm(job.lens.pitchMm)), 2)} LPI lens`;
  return {
    id,
    name: freeName(shelves, 'lenses', name),
    ...job.lens,
    widthMm: across,
    heightMm: along,
    note: '',
  };
};

export const printerFromJob = (job: Job, shelves: Shelves, id: string): PrinterEntry => {
  const { carriageDpi: acrossDpi, feedDpi: alongDpi } = job.printer;
  const name = `${trimmed(acrossDpi, 2)} × ${trimmed(alongDpi, 2)} printer`;
  return { id, name: freeName(shelves, 'printers', name), acrossDpi, alongDpi, note: '' };
};

/** The numbers of a usual lens, for the person to change. */
export const newLens = (shelves: Shelves, id: string): LensEntry => ({
  id,
  name: freeName(shelves, 'lenses', 'My lens'),
  pitchMm: 25.4 / 60,
  thicknessMm: 0.84,
  index: 1.57,
  widthMm: 300,
  heightMm: 400,
  note: '',
});

export const newPrinter = (shelves: Shelves, id: string): PrinterEntry => ({
  id,
  name: freeName(shelves, 'printers', 'My printer'),
  acrossDpi: 720,
  alongDpi: 720,
  note: '',
});

export const newPaper = (shelves: Shelves, id: string): PaperEntry => ({
  id,
  name: freeName(shelves, 'papers', 'My paper'),
  widthMm: 210,
  heightMm: 297,
  note: '',
});
