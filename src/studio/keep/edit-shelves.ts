/** What the buttons of the shelves do to the shelves and the job. */
import { nameInText } from '../../core/names/shown.ts';
import type { Job } from '../../job/schema/job.ts';
import { sameContents } from '../../materials/shelf-file.ts';
import type { Cut } from '../../materials/cut-list.ts';
import { offcutsOf } from '../../materials/offcuts.ts';
import type {
  Entry,
  EntryChange,
  EntryOf,
  LensEntry,
  Shelves,
  ShelfName,
} from '../../materials/shelves.ts';
import {
  addEntry,
  changeEntry,
  findEntry,
  freeName,
  removeEntry,
} from '../../materials/shelves.ts';
import { withStarters } from '../../materials/starters.ts';
import {
  lensFromJob,
  newLens,
  newPaper,
  newPrinter,
  printerFromJob,
  setStock,
  takeLens,
  takePaper,
  takePrinter,
} from '../../materials/use-in-job.ts';
import type { ShelfNotice } from '../../state/shelves.ts';
import type { Studio } from '../studio.ts';

const oneOf = { lenses: 'lens', printers: 'printer', papers: 'paper' } as const;

/** @returns the sentence that refuses the change, if one does */
export const editEntry = <Shelf extends ShelfName>(
  studio: Studio,
  shelf: Shelf,
  id: string,
  label: string,
  change: EntryChange<Shelf>,
): string | undefined => {
  const store = studio.shelves.getState();
  const changed = changeEntry(store.shelves, shelf, id, change);
  if (!changed.ok) return changed.message;
  if (!sameContents(changed.shelves, store.shelves)) store.change(label, changed.shelves);
  return undefined;
};

const makers: Readonly<Record<ShelfName, (shelves: Shelves, id: string) => Entry>> = {
  lenses: newLens,
  printers: newPrinter,
  papers: newPaper,
};

const add = ({ shelves: store }: Studio, shelf: ShelfName, entry: Entry): string => {
  const { shelves, change } = store.getState();
  change(`adding ${nameInText(entry.name)}`, addEntry(shelves, shelf, entry));
  return entry.id;
};

/** Adds an entry for the person to fill in. @returns its id */
export const addNew = (studio: Studio, shelf: ShelfName): string =>
  add(studio, shelf, makers[shelf](studio.shelves.getState().shelves, crypto.randomUUID()));

/** Adds the job's lens or printer and chooses it for the job. @returns its id */
export const putOnShelf = (studio: Studio, shelf: 'lenses' | 'printers'): string => {
  const { shelves } = studio.shelves.getState();
  const { job } = studio.document.getState();
  const make = shelf === 'lenses' ? lensFromJob : printerFromJob;
  const id = add(studio, shelf, make(job, shelves, crypto.randomUUID()));
  studio.change(`${oneOf[shelf]} from the shelf`, (now) =>
    setStock(now, shelf === 'lenses' ? { lensId: id } : { printerId: id }),
  );
  return id;
};

/** Adds a copy behind the entry. @returns its id */
export const duplicate = <Shelf extends ShelfName>(
  studio: Studio,
  shelf: Shelf,
  entry: EntryOf[Shelf],
): string => {
  const { shelves, change } = studio.shelves.getState();
  const id = crypto.randomUUID();
  const name = freeName(shelves, shelf, `${entry.name.slice(0, 80)} (copy)`);
  change(
    `copying ${nameInText(entry.name)}`,
    addEntry(shelves, shelf, { ...entry, id, name }, entry.id),
  );
  return id;
};

export const takeOff = (studio: Studio, shelf: ShelfName, id: string): void => {
  const { shelves, change, tell } = studio.shelves.getState();
  const entry = findEntry(shelves, shelf, id);
  if (entry === undefined) return;
  change(`removing ${nameInText(entry.name)}`, removeEntry(shelves, shelf, id));
  tell({ kind: 'info', title: `“${nameInText(entry.name)}” is off the shelf`, lines: [] });
};

export const bringStarters = (studio: Studio): void => {
  const { shelves, change } = studio.shelves.getState();
  change('generic starters', withStarters(shelves));
};

/** Keeps what a cut leaves of a lens sheet as stock. */
export const keepOffcuts = (
  { shelves: store }: Studio,
  sheet: LensEntry,
  cut: Cut,
): ShelfNotice => {
  const { shelves, change } = store.getState();
  const kept = offcutsOf(sheet, cut, shelves, () => crypto.randomUUID());
  change(
    `keeping what is left of ${nameInText(sheet.name)}`,
    kept.reduceRight((now, entry) => addEntry(now, 'lenses', entry, sheet.id), shelves),
  );
  return {
    kind: 'info',
    title: kept.length === 1 ? 'The offcut is in the Workshop' : 'The offcuts are in the Workshop',
    lines: kept.map(({ name }) => `“${nameInText(name)}”`),
  };
};

type Taker<Entry> = (job: Job, entry: Entry, shelves: Shelves) => Job;

const takers: { readonly [Shelf in ShelfName]: Taker<EntryOf[Shelf]> } = {
  lenses: takeLens,
  printers: takePrinter,
  papers: takePaper,
};

/** Uses the entry in the job, as a step of the job's undo. @returns what happened */
export const layIntoJob = <Shelf extends ShelfName>(
  studio: Studio,
  shelf: Shelf,
  entry: EntryOf[Shelf],
): ShelfNotice => {
  const isProved = () => studio.document.getState().job.provedPitch !== undefined;
  const take = takers[shelf] as Taker<EntryOf[Shelf]>;
  const { shelves } = studio.shelves.getState();
  const hadProof = isProved();
  const error = studio.change(`${oneOf[shelf]} from the shelf`, (job) => take(job, entry, shelves));
  if (error !== undefined)
    return {
      kind: 'problem',
      title: `“${nameInText(entry.name)}” cannot be used for this job`,
      lines: [`${error} The job is as it was.`],
    };
  const letGo = hadProof && !isProved();
  return {
    kind: letGo ? 'caution' : 'info',
    title: `“${nameInText(entry.name)}” is used for this job`,
    lines: letGo
      ? [
          'The pitch is nominal again: what was proved held for another lens, printer or paper. Undo on the job sheet brings it back.',
        ]
      : [],
  };
};
