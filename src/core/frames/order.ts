/**
 * Natural order of numbered names: frame_2 before frame_10; case and accents do not matter. Names may contain a
 * folder path with `/`. Texts are compared by the numeric collation of ECMA-402, in one fixed language so that every
 * machine sorts a job alike.
 */

const collator = new Intl.Collator('en', { numeric: true, sensitivity: 'base' });

/** An extension begins with a letter, so the number in `bloom.0012` stays part of the name. */
const EXTENSION = /(?<=.)\.[a-z][a-z0-9]{0,4}$/i;

/** The last part of a path, without its extension. */
export const stemOf = (path: string): string =>
  path.slice(path.lastIndexOf('/') + 1).replace(EXTENSION, '');

/** For names that differ only in case, accents or leading zeros: the shorter one first. */
const settleTie = (a: string, b: string): number =>
  a.length - b.length || (a < b ? -1 : a > b ? 1 : 0);

const compareFolders = (a: readonly string[], b: readonly string[]): number => {
  for (let depth = 0; depth < a.length && depth < b.length; depth++) {
    const [one = '', other = ''] = [a[depth], b[depth]];
    const order = collator.compare(one, other) || settleTie(one, other);
    if (order !== 0) return order;
  }
  return a.length - b.length;
};

/**
 * Compares by folder first (the files of a folder before those of its subfolders), then by name without extension, so
 * that `frame.png` comes before `frame-2.png`; extension, leading zeros and case only break ties. A total order: 0
 * for identical texts only.
 */
export const compareNames = (a: string, b: string): number => {
  const [foldersA, foldersB] = [a.split('/').slice(0, -1), b.split('/').slice(0, -1)];
  const [stemA, stemB] = [stemOf(a), stemOf(b)];
  return (
    compareFolders(foldersA, foldersB) ||
    collator.compare(stemA, stemB) ||
    settleTie(stemA, stemB) ||
    collator.compare(a, b) ||
    settleTie(a, b)
  );
};

export interface Named {
  readonly name: string;
}

const byName = (a: Named, b: Named): number => compareNames(a.name, b.name);

/** A sorted copy. */
export const inNaturalOrder = <T extends Named>(items: readonly T[]): T[] =>
  [...items].sort(byName);

export const isInNaturalOrder = (items: readonly Named[]): boolean =>
  items.every((item, index) => index === 0 || byName(items[index - 1]!, item) <= 0);

/**
 * Adds new items: at their natural places while the list is in natural order; otherwise, since someone arranged it,
 * at the end and sorted among themselves.
 */
export const insertInOrder = <T extends Named>(present: readonly T[], added: readonly T[]): T[] =>
  isInNaturalOrder(present)
    ? inNaturalOrder([...present, ...added])
    : [...present, ...inNaturalOrder(added)];

/** Indices of the items outside the longest rising run through the list: the fewest that are out of place. */
const outsideLongestRun = (items: readonly Named[]): number[] => {
  const lengths: number[] = [];
  const before: number[] = [];
  let end = -1;
  items.forEach((item, i) => {
    lengths[i] = 1;
    before[i] = -1;
    for (let j = 0; j < i; j += 1)
      if (byName(items[j]!, item) <= 0 && lengths[j]! >= lengths[i]) {
        lengths[i] = lengths[j]! + 1;
        before[i] = j;
      }
    if (end < 0 || lengths[i] > lengths[end]!) end = i;
  });
  const kept = new Set<number>();
  for (let i = end; i >= 0; i = before[i]!) kept.add(i);
  return items.map((_, i) => i).filter((i) => !kept.has(i));
};

/**
 * Indices of the fewest items that break the natural order. A list that runs backwards as a whole has none: someone
 * reversed it on purpose.
 */
export const outOfOrder = (items: readonly Named[]): number[] => {
  const forwards = outsideLongestRun(items);
  if (forwards.length * 2 < items.length) return forwards;
  const last = items.length - 1;
  const backwards = outsideLongestRun([...items].reverse()).map((i) => last - i);
  return backwards.length < forwards.length ? backwards.sort((a, b) => a - b) : forwards;
};
