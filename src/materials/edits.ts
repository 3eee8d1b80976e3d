/** What the buttons of the shelves do: changes to the shelves, and from them to the job. */
import type { Job } from '../job/schema/job.ts';
import type { EntryChange, EntryOf, Shelves, ShelfName } from './shelves.ts';
import { addEntry, changeEntry, findEntry, freeName, removeEntry } from './shelves.ts';
import { sameContents } from './shelf-file.ts';
import { withStarters } from './starters.ts';
import {
  isLensOfJob,
  isPrinterOfJob,
  lensFromJob,
  newLens,
  newPaper,
  newPrinter,
  printerFromJob,
  setStock,
  stockOf,
  takeLens,
  takePaper,
  takePrinter,
} from './use-in-job.ts';
import { tryChange } from '../state/change.ts';
import { documentStore } from '../state/document.ts';
import type { ShelfNotice } from '../state/shelves.ts';
import { shelvesStore } from '../state/shelves.ts';

const store = shelvesStore.getState;
type AnEntry = EntryOf[ShelfName];

/** Returns the sentence that refuses the change, if one does. */
export const editEntry = <Shelf extends ShelfName>(
  shelf: Shelf,
  id: string,
  label: string,
  change: EntryChange<Shelf>,
): string | undefined => {
  const changed = changeEntry(store().shelves, shelf, id, change);
  if (!changed.ok) return changed.message;
  if (!sameContents(changed.shelves, store().shelves)) store().change(label, changed.shelves);
  return undefined;
};

const makers: Readonly<Record<ShelfName, (shelves: Shelves, id: string) => AnEntry>> = {
  lenses: newLens,
  printers: newPrinter,
  papers: newPaper,
};

/** Adds an entry to be filled in. Returns its id. */
export const addNew = (shelf: ShelfName): string => {
  const { shelves, change } = store();
  const entry = makers[shelf](shelves, crypto.randomUUID());
  change(`adding ${entry.name}`, addEntry(shelves, shelf, entry));
  return entry.id;
};

/** Adds what the job sheet says, and chooses it: the job works with it already. Returns its id. */
export const putOnShelf = (shelf: 'lenses' | 'printers'): string => {
  const { shelves, change } = store();
  const { job } = documentStore.getState();
  const id = crypto.randomUUID();
  const entry = (shelf === 'lenses' ? lensFromJob : printerFromJob)(job, shelves, id);
  change(`adding ${entry.name}`, addEntry(shelves, shelf, entry as AnEntry as never));
  tryChange(`${oneOf[shelf]} from the shelf`, (now) =>
    setStock(now, shelf === 'lenses' ? { lensId: id } : { printerId: id }),
  );
  return id;
};

/** Puts a copy behind the entry. Returns its id. */
export const duplicate = <Shelf extends ShelfName>(shelf: Shelf, entry: EntryOf[Shelf]): string => {
  const { shelves, change } = store();
  const id = crypto.randomUUID();
  const name = freeName(shelves, shelf, `${entry.name.slice(0, 80)} (copy)`);
  change(`copying ${entry.name}`, addEntry(shelves, shelf, { ...entry, id, name }, entry.id));
  return id;
};

export const takeOff = (shelf: ShelfName, id: string): void => {
  const { shelves, change, tell } = store();
  const entry = findEntry(shelves, shelf, id);
  if (entry === undefined) return;
  change(`removing ${entry.name}`, removeEntry(shelves, shelf, id));
  tell({ kind: 'info', title: `“${entry.name}” is off the shelf`, lines: [] });
};

export const bringStarters = (): void =>
  store().change('generic starters', withStarters(store().shelves));

const takers: { readonly [Shelf in ShelfName]: (job: Job, entry: EntryOf[Shelf]) => Job } = {
  lenses: takeLens,
  printers: takePrinter,
  papers: takePaper,
};

const oneOf = { lenses: 'lens', printers: 'printer', papers: 'paper' } as const;

/** Lays the entry into the job, as a step that the job's undo takes back. Returns what followed. */
export const layIntoJob = <Shelf extends ShelfName>(
  shelf: Shelf,
  entry: EntryOf[Shelf],
): ShelfNotice => {
  const take = takers[shelf] as (job: Job, entry: EntryOf[Shelf]) => Job;
  const hadProof = documentStore.getState().job.provedPitch !== undefined;
  const error = tryChange(`${oneOf[shelf]} from the shelf`, (job) => take(job, entry));
  if (error !== undefined)
    return {
      kind: 'problem',
      title: `“${entry.name}” cannot be used for this job`,
      lines: [`${error} The job is as it was.`],
    };
  const letGo = hadProof && documentStore.getState().job.provedPitch === undefined;
  return {
    kind: letGo ? 'caution' : 'info',
    title: `“${entry.name}” is used for this job`,
    lines: letGo
      ? [
          'The pitch is nominal again: what was proved held for another lens, printer or paper. Undo on the job sheet brings it back.',
        ]
      : [],
  };
};

/** Whether the job works with this entry; `differs`: chosen, but the job's numbers were changed since. */
export const standingOf = <Shelf extends ShelfName>(
  job: Job,
  shelf: Shelf,
  entry: EntryOf[Shelf],
): 'in-use' | 'differs' | 'idle' => {
  const { lensId, printerId, paperId } = stockOf(job);
  const chosen = { lenses: lensId, printers: printerId, papers: paperId }[shelf];
  if (chosen !== entry.id) return 'idle';
  if (shelf === 'lenses' && !isLensOfJob(job, entry as EntryOf['lenses'])) return 'differs';
  if (shelf === 'printers' && !isPrinterOfJob(job, entry as EntryOf['printers'])) return 'differs';
  return 'in-use';
};
