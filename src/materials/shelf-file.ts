/** Shelves as a stored document or a file: reading, writing and merging them. */
import * as v from 'valibot';
import { nameInText } from '../core/names/shown.ts';
import type { Entry, Shelves, ShelfName } from './shelves.ts';
import {
  SHELVES_KIND,
  SHELVES_VERSION,
  emptyShelves,
  entrySchemas,
  freeName,
  shelfNames,
} from './shelves.ts';

type Fields = Readonly<Record<string, unknown>>;

/** An entry that was left out, and why. */
export interface LeftOut {
  readonly shelf: ShelfName;
  /** "third entry" where it has no name. */
  readonly name: string;
  readonly reason: string;
  /** The entry as it came, so that it can be set aside. Left out if nothing is lost. */
  readonly entry?: unknown;
}

export type ReadShelves =
  | { readonly ok: true; readonly shelves: Shelves; readonly leftOut: readonly LeftOut[] }
  | { readonly ok: false; readonly reason: string };

const isFields = (value: unknown): value is Fields =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

const nameOf = (entry: unknown, place: number): string =>
  isFields(entry) && typeof entry['name'] === 'string' && entry['name'].trim() !== ''
    ? entry['name'].slice(0, 100)
    : `entry ${place + 1}`;

const readShelf = (shelf: ShelfName, entries: readonly unknown[]) => {
  const kept = new Map<string, Entry>();
  const leftOut: LeftOut[] = [];
  entries.forEach((entry, place) => {
    const checked = v.safeParse(entrySchemas[shelf], entry);
    const name = nameOf(entry, place);
    if (!checked.success) {
      const [issue] = checked.issues;
      const field = v.getDotPath(issue);
      const reason = field === null ? issue.message : `${issue.message} (field “${field}”)`;
      leftOut.push({ shelf, name, reason, entry });
    } else if (kept.has(checked.output.id))
      leftOut.push({ shelf, name, reason: 'Another entry has the same id.', entry });
    else kept.set(checked.output.id, checked.output);
  });
  return { kept: [...kept.values()], leftOut };
};

/** Never throws. A damaged entry is left out and named; a document of another kind is refused. */
export const readShelves = (document: unknown): ReadShelves => {
  if (!isFields(document) || document['kind'] !== SHELVES_KIND)
    return {
      ok: false,
      reason: `It does not hold shelves: its “kind” should be “${SHELVES_KIND}”.`,
    };
  const version = document['version'];
  if (typeof version === 'number' && version > SHELVES_VERSION)
    return {
      ok: false,
      reason: `It was written by a newer studio (shelves version ${version}, this one reads up to ${SHELVES_VERSION}).`,
    };
  if (version !== SHELVES_VERSION)
    return { ok: false, reason: 'It does not say which version of shelves it holds.' };
  const wrong = shelfNames.find(
    (shelf) => document[shelf] !== undefined && !Array.isArray(document[shelf]),
  );
  if (wrong !== undefined) return { ok: false, reason: `Its “${wrong}” is not a list.` };
  const read = shelfNames.map((shelf) =>
    readShelf(shelf, (document[shelf] as readonly unknown[] | undefined) ?? []),
  );
  const shelves = {
    ...document,
    ...emptyShelves(),
    ...Object.fromEntries(shelfNames.map((shelf, i) => [shelf, read[i]?.kept])),
  };
  return { ok: true, shelves, leftOut: read.flatMap(({ leftOut }) => leftOut) };
};

/** Entries lie on the third level; no field of a shelf nests deeper than this. */
const MOST_LEVELS = 12;
/** In a file, on one shelf. */
export const MOST_ENTRIES = 500;

const isDeeper = (value: unknown, levels: number): boolean =>
  typeof value === 'object' &&
  value !== null &&
  (levels === 0 || Object.values(value).some((inner) => isDeeper(inner, levels - 1)));

/** A field with this name would change the object's prototype. */
const withoutPrototype = (key: string, value: unknown): unknown =>
  key === '__proto__' ? undefined : value;

/** Reads the text of a file, which may hold anything. */
export const readShelvesText = (text: string): ReadShelves => {
  let document: unknown;
  try {
    document = JSON.parse(text.replace(/^\uFEFF/, ''), withoutPrototype);
  } catch (error) {
    return { ok: false, reason: `It is not JSON text (${(error as SyntaxError).message}).` };
  }
  if (isDeeper(document, MOST_LEVELS))
    return { ok: false, reason: `It is nested deeper than ${MOST_LEVELS} levels: no shelves are.` };
  const full = shelfNames.find((shelf) => {
    const entries = isFields(document) ? document[shelf] : undefined;
    return Array.isArray(entries) && entries.length > MOST_ENTRIES;
  });
  if (full !== undefined)
    return { ok: false, reason: `Its “${full}” has more than ${MOST_ENTRIES} entries.` };
  return readShelves(document);
};

export const writeShelves = (shelves: Shelves): string => `${JSON.stringify(shelves, null, 2)}\n`;

/** JSON with sorted keys: equal for equal contents. */
const canonical = (value: unknown): string =>
  JSON.stringify(value, (_key, inner: unknown) =>
    isFields(inner)
      ? Object.fromEntries(Object.entries(inner).sort(([a], [b]) => (a < b ? -1 : 1)))
      : inner,
  );

/** Whether both are equal, whatever the order of their fields. */
export const sameContents = (a: unknown, b: unknown): boolean => canonical(a) === canonical(b);

const withoutLabels = ({ id: _id, name: _name, ...rest }: Entry): string => canonical(rest);

export interface Merged {
  readonly shelves: Shelves;
  readonly added: number;
  /** Entries whose id or name is that of an entry with other numbers: they got a new name. */
  readonly besides: readonly { readonly name: string; readonly as: string }[];
  readonly leftOut: readonly LeftOut[];
}

/** Short enough to leave room for a number. */
const besideName = ({ name }: Entry) => `${name.slice(0, 80)} (imported)`;

const isAlike = (own: Entry, theirs: Entry) =>
  own.id === theirs.id || own.name === theirs.name || own.name.startsWith(besideName(theirs));

/**
 * Adds their entries to ours. Ours stay as they are. An entry of theirs that equals one of ours is left out; one
 * that only shares its id or name gets a new id and name.
 */
export const mergeShelves = (ours: Shelves, theirs: Shelves, newId: () => string): Merged => {
  let shelves = { ...theirs, ...ours };
  let added = 0;
  const besides: { name: string; as: string }[] = [];
  const leftOut: LeftOut[] = [];
  for (const shelf of shelfNames)
    for (const entry of theirs[shelf] as readonly Entry[]) {
      const onShelf = shelves[shelf] as readonly Entry[];
      const alike = onShelf.filter((own) => isAlike(own, entry));
      const same = alike.find((own) => withoutLabels(own) === withoutLabels(entry));
      if (same !== undefined) {
        const as = same.name === entry.name ? '' : ` as “${nameInText(same.name)}”`;
        leftOut.push({ shelf, name: entry.name, reason: `It is on the shelf already${as}.` });
        continue;
      }
      const name = alike.length === 0 ? entry.name : freeName(shelves, shelf, besideName(entry));
      const id = onShelf.some((own) => own.id === entry.id) ? newId() : entry.id;
      shelves = { ...shelves, [shelf]: [...onShelf, { ...entry, id, name }] };
      if (alike.length === 0) added += 1;
      else besides.push({ name: entry.name, as: name });
    }
  return { shelves, added, besides, leftOut };
};

const carryShelf = (
  before: readonly Entry[],
  after: readonly Entry[],
  onto: readonly Entry[],
): readonly Entry[] => {
  const was = new Map(before.map((entry) => [entry.id, entry]));
  const is = new Map(after.map((entry) => [entry.id, entry]));
  const changed = new Map(
    after
      .filter((entry) => !sameContents(entry, was.get(entry.id)))
      .map((entry) => [entry.id, entry]),
  );
  const kept = onto.filter(({ id }) => !was.has(id) || is.has(id));
  const there = new Set(kept.map(({ id }) => id));
  return [
    ...kept.map((entry) => changed.get(entry.id) ?? entry),
    ...[...changed.values()].filter(({ id }) => !there.has(id)),
  ];
};

/**
 * Makes the change from `before` to `after` in `onto`, entry by entry. Entries and changes that only `onto` has
 * stay.
 */
export const carryOver = (before: Shelves, after: Shelves, onto: Shelves): Shelves =>
  sameContents(before, onto)
    ? after
    : {
        ...after,
        ...onto,
        lenses: carryShelf(before.lenses, after.lenses, onto.lenses) as Shelves['lenses'],
        printers: carryShelf(before.printers, after.printers, onto.printers) as Shelves['printers'],
        papers: carryShelf(before.papers, after.papers, onto.papers) as Shelves['papers'],
      };
