/**
 * Natural order of numbered names: frame_2 before frame_10; case and accents do not matter. Names may contain a
 * folder path with `/`. Texts are compared by the numeric collation of ECMA-402, in one fixed language so that every
 * machine sorts a job alike.
 */

import { oncePerList } from './once-per-list.ts';

const collator = new Intl.Collator('en', { numeric: true, sensitivity: 'base' });

/** An extension begins with a letter, so the number in `bloom.0012` stays part of the name. */
const EXTENSION = /(?<=.)\.[a-z][a-z0-9]{0,4}$/i;

/** The last part of a path, without its extension. */
export const stemOf = (path: string): string =>
  path.slice(path.lastIndexOf('/') + 1).replace(EXTENSION, '');

/** For names that differ only in case, accents or leading zeros: the shorter one first. */
const settleTie = (a: string, b: string): number =>
  a.length - b.length || (a < b ? -1 : a > b ? 1 : 0);

/** A name taken apart once, so that sorting thousands does not take it apart at every comparison. */
interface NameParts {
  readonly name: string;
  readonly folders: readonly string[];
  readonly stem: string;
}

const partsOf = (name: string): NameParts => ({
  name,
  folders: name.split('/').slice(0, -1),
  stem: stemOf(name),
});

const compareFolders = (a: readonly string[], b: readonly string[]): number => {
  for (let depth = 0; depth < a.length && depth < b.length; depth++) {
    const [one = '', other = ''] = [a[depth], b[depth]];
    const order = collator.compare(one, other) || settleTie(one, other);
    if (order !== 0) return order;
  }
  return a.length - b.length;
};

const compareParts = (a: NameParts, b: NameParts): number =>
  compareFolders(a.folders, b.folders) ||
  collator.compare(a.stem, b.stem) ||
  settleTie(a.stem, b.stem) ||
  collator.compare(a.name, b.name) ||
  settleTie(a.name, b.name);

/**
 * Compares by folder first (the files of a folder before those of its subfolders), then by name without extension, so
 * that `frame.png` comes before `frame-2.png`; extension, leading zeros and case only break ties. A total order: 0
 * for identical texts only.
 */
export const compareNames = (a: string, b: string): number => compareParts(partsOf(a), partsOf(b));

export interface Named {
  readonly name: string;
}

/** A copy, sorted by the name that `nameOf` tells of each. */
export const sortedBy = <T>(items: readonly T[], nameOf: (item: T) => string): T[] =>
  items
    .map((item) => ({ item, parts: partsOf(nameOf(item)) }))
    .sort((a, b) => compareParts(a.parts, b.parts))
    .map(({ item }) => item);

/** A sorted copy. */
export const inNaturalOrder = <T extends Named>(items: readonly T[]): T[] =>
  sortedBy(items, ({ name }) => name);

export const isInNaturalOrder = oncePerList((items: readonly Named[]): boolean => {
  const parts = items.map(({ name }) => partsOf(name));
  return parts.every((one, index) => index === 0 || compareParts(parts[index - 1]!, one) <= 0);
});

/**
 * Adds new items: at their natural places while the list is in natural order; otherwise, since someone arranged it,
 * at the end and sorted among themselves.
 */
export const insertInOrder = <T extends Named>(present: readonly T[], added: readonly T[]): T[] =>
  isInNaturalOrder(present)
    ? inNaturalOrder([...present, ...added])
    : [...present, ...inNaturalOrder(added)];

/** For each item its place in natural order; the same place for the same name. */
const ranksOf = (items: readonly Named[]): number[] => {
  const names = sortedBy([...new Set(items.map(({ name }) => name))], (name) => name);
  const rank = new Map(names.map((name, place) => [name, place]));
  return items.map(({ name }) => rank.get(name)!);
};

/**
 * Indices of the items outside the longest run that never falls: the fewest that are out of place. Found in n log n
 * steps by patience sorting (M. L. Fredman, "On computing the length of longest increasing subsequences", 1975).
 */
const outsideLongestRun = (ranks: readonly number[]): number[] => {
  /** By length, less one: where the run of that length ends whose last rank is the lowest so far. */
  const ends: number[] = [];
  const before: number[] = [];
  ranks.forEach((rank, place) => {
    let [low, high] = [0, ends.length];
    while (low < high) {
      const middle = (low + high) >> 1;
      if (ranks[ends[middle]!]! <= rank) low = middle + 1;
      else high = middle;
    }
    before[place] = ends[low - 1] ?? -1;
    ends[low] = place;
  });
  const kept = new Set<number>();
  for (let place = ends.at(-1) ?? -1; place >= 0; place = before[place]!) kept.add(place);
  return ranks.map((_, place) => place).filter((place) => !kept.has(place));
};

/**
 * Indices of the fewest items that break the natural order. A list that runs backwards as a whole has none: someone
 * reversed it on purpose.
 */
export const outOfOrder = oncePerList((items: readonly Named[]): readonly number[] => {
  const ranks = ranksOf(items);
  const forwards = outsideLongestRun(ranks);
  if (forwards.length * 2 < items.length) return forwards;
  const last = items.length - 1;
  const backwards = outsideLongestRun([...ranks].reverse()).map((place) => last - place);
  return backwards.length < forwards.length ? backwards.reverse() : forwards;
});
