/**
 * The shelves: lens sheets, printers and papers that the person has or may buy, as they are kept on the
 * device and carried as a file (docs/formats.md, "Shelves"). Fields that this studio does not know
 * are kept as they came.
 */
import * as v from 'valibot';
import type { ChangeOf } from '../job/schema/changed.ts';
import { changed } from '../job/schema/changed.ts';
import { jobSchema, newJob, printerSchema } from '../job/schema/job.ts';
import { untaken } from '../job/facts/free-name.ts';
import { lensSchema } from '../job/schema/lens.ts';
import { measure } from '../job/schema/measures.ts';

export const SHELVES_KIND = 'tiltloom-shelves';
export const SHELVES_VERSION = 1;

const id = v.pipe(
  v.string('An id must be text.'),
  v.nonEmpty('An id must not be empty.'),
  v.maxLength(100, 'An id must be at most 100 letters long.'),
);
export const nameSchema = v.pipe(
  v.string('Name must be text.'),
  v.check((name) => name.trim() !== '', 'Name must not be empty.'),
  v.maxLength(100, 'Name must be at most 100 letters long.'),
);
const note = v.optional(
  v.pipe(
    v.string('Note must be text.'),
    v.maxLength(1000, 'Note must be at most 1000 letters long.'),
  ),
  '',
);
/** In the person's own currency. */
const price = v.optional(measure('Price', 0, 1e9, ''));

const lensFields = v.looseObject({
  id,
  name: nameSchema,
  ...lensSchema.entries,
  /** As bought: across the ribs, and along them. */
  widthMm: measure('Width across the ribs', 5, 5000, ' mm'),
  heightMm: measure('Height along the ribs', 5, 20000, ' mm'),
  /** Id of the sheet that this is a piece of; left out: a sheet as bought. */
  offcutOf: v.optional(id),
  price,
  note,
});

/** Checked with the job's own rules, so that shelf and job never disagree on which rib can exist. */
export const lensEntrySchema = v.pipe(
  lensFields,
  v.rawCheck(({ dataset, addIssue }) => {
    if (!dataset.typed) return;
    const input = dataset.value;
    const checked = v.safeParse(jobSchema, { ...newJob(), lens: input });
    if (checked.success) return;
    const [{ message, path }] = checked.issues;
    const key = String(path?.at(-1)?.key);
    const place = { type: 'object', origin: 'value', input, key, value: input[key] } as const;
    addIssue({ message, path: [place] });
  }),
);

export const printerEntrySchema = v.looseObject({
  id,
  name: nameSchema,
  /** The printer's own grid, under the names of the first shelves: along the carriage, and along the feed. */
  acrossDpi: printerSchema.entries.carriageDpi,
  alongDpi: printerSchema.entries.feedDpi,
  inkPerSquareMetre: v.optional(measure('Ink for a square metre', 0, 1e9, '')),
  /** What the printer leaves blank at every edge. */
  marginMm: v.optional(measure('Printer margin', 0, 60, ' mm')),
  note,
});

/** A printer profile of this paper; its bytes lie beside the shelves (src/files/profile-store.ts). */
const paperProfileSchema = v.looseObject({
  id,
  name: v.pipe(v.string(), v.maxLength(200)),
  space: v.picklist(['GRAY', 'RGB', 'CMYK']),
  use: v.picklist(['printer', 'working']),
  /** The most ink that it asks for; left out where it has no inks. */
  mostInk: v.optional(measure('Most ink', 0, 400, ' %')),
});

export const paperEntrySchema = v.looseObject({
  id,
  name: nameSchema,
  widthMm: measure('Paper width', 40, 5000, ' mm'),
  heightMm: measure('Paper height', 40, 20000, ' mm'),
  thicknessMm: v.optional(measure('Paper thickness', 0.01, 10, ' mm')),
  profile: v.optional(paperProfileSchema),
  /** All channels together, as much as the paper takes. */
  inkLimit: v.optional(measure('Total ink limit', 50, 400, ' %')),
  price,
  note,
});

export type LensEntry = v.InferOutput<typeof lensEntrySchema>;
export type PrinterEntry = v.InferOutput<typeof printerEntrySchema>;
export type PaperProfile = v.InferOutput<typeof paperProfileSchema>;
export type PaperEntry = v.InferOutput<typeof paperEntrySchema>;
export type Entry = LensEntry | PrinterEntry | PaperEntry;

export interface EntryOf {
  lenses: LensEntry;
  printers: PrinterEntry;
  papers: PaperEntry;
}
export type ShelfName = keyof EntryOf;
export const shelfNames = ['lenses', 'printers', 'papers'] as const satisfies ShelfName[];

export const entrySchemas = {
  lenses: lensEntrySchema,
  printers: printerEntrySchema,
  papers: paperEntrySchema,
} as const;

/** The whole document. Fields that this studio does not know stay in it. */
export interface Shelves {
  readonly kind: typeof SHELVES_KIND;
  readonly version: typeof SHELVES_VERSION;
  readonly lenses: readonly LensEntry[];
  readonly printers: readonly PrinterEntry[];
  readonly papers: readonly PaperEntry[];
}

export const emptyShelves = (): Shelves => ({
  kind: SHELVES_KIND,
  version: SHELVES_VERSION,
  lenses: [],
  printers: [],
  papers: [],
});

/** The first thing wrong with an entry, or undefined. */
export const entryFault = (shelf: ShelfName, entry: unknown): string | undefined => {
  const checked = v.safeParse(entrySchemas[shelf], entry);
  return checked.success ? undefined : checked.issues[0].message;
};

export const findEntry = <Shelf extends ShelfName>(
  shelves: Shelves,
  shelf: Shelf,
  entryId: string | undefined,
): EntryOf[Shelf] | undefined =>
  (shelves[shelf] as readonly EntryOf[Shelf][]).find((entry) => entry.id === entryId);

const withShelf = (shelves: Shelves, shelf: ShelfName, entries: readonly Entry[]): Shelves => ({
  ...shelves,
  [shelf]: entries,
});

/** At the end of its shelf, or behind the entry whose id is `afterId`. */
export const addEntry = <Shelf extends ShelfName>(
  shelves: Shelves,
  shelf: Shelf,
  entry: EntryOf[Shelf],
  afterId?: string,
): Shelves => {
  const entries: readonly Entry[] = shelves[shelf];
  const after = entries.findIndex(({ id: own }) => own === afterId);
  const place = after < 0 ? entries.length : after + 1;
  return withShelf(shelves, shelf, [...entries.slice(0, place), entry, ...entries.slice(place)]);
};

export const removeEntry = (shelves: Shelves, shelf: ShelfName, entryId: string): Shelves =>
  withShelf(
    shelves,
    shelf,
    (shelves[shelf] as readonly Entry[]).filter((entry) => entry.id !== entryId),
  );

export type EntryChange<Shelf extends ShelfName> = ChangeOf<EntryOf[Shelf]>;

/** The changed shelves, or a sentence with the first rule that the change would break. */
export const changeEntry = <Shelf extends ShelfName>(
  shelves: Shelves,
  shelf: Shelf,
  entryId: string,
  change: EntryChange<Shelf>,
):
  | { readonly ok: true; readonly shelves: Shelves }
  | { readonly ok: false; readonly message: string } => {
  const before = findEntry(shelves, shelf, entryId);
  if (before === undefined) return { ok: false, message: 'This entry is no longer on the shelf.' };
  const after: Entry = changed(before, change);
  const message = entryFault(shelf, after);
  if (message !== undefined) return { ok: false, message };
  const entries = (shelves[shelf] as readonly Entry[]).map((entry) =>
    entry.id === entryId ? after : entry,
  );
  return { ok: true, shelves: withShelf(shelves, shelf, entries) };
};

export const freeName = (shelves: Shelves, shelf: ShelfName, wanted: string): string =>
  untaken(wanted, new Set((shelves[shelf] as readonly Entry[]).map(({ name }) => name)));
