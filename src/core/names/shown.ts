/**
 * Names that come from outside (files, jobs, shelf entries), as they are shown. Such a name may run from right to left,
 * and may hold marks that turn the direction of whatever follows: a file could pass for another kind, a sentence be read
 * in another order.
 */

/** Marks of direction: Unicode Standard Annex 9, section 2 (embeddings, overrides, isolates, implicit marks). */
const directionMarks = /[\u061c\u200e\u200f\u202a-\u202e\u2066-\u2069]/g;

/** Scripts that run from right to left; UAX 9, table 4, types R and AL. */
const rightToLeft =
  /[\u0590-\u08ff\ufb1d-\ufdff\ufe70-\ufefe\u{10800}-\u{10fff}\u{1e800}-\u{1efff}]/u;

const FIRST_STRONG_ISOLATE = '\u2068';
const POP_ISOLATE = '\u2069';

/** The name with each mark of direction as its code point, "[U+202E]". For an element that isolates it. */
export const shownName = (name: string): string =>
  name.replace(
    directionMarks,
    (mark) => `[U+${mark.charCodeAt(0).toString(16).toUpperCase().padStart(4, '0')}]`,
  );

/**
 * The same for text without elements (labels, choices, sentences): a name in a script from right to left is kept apart
 * from the words around it by marks of our own (UAX 9, section 2.4).
 */
export const nameInText = (name: string): string => {
  const shown = shownName(name);
  return rightToLeft.test(shown) ? `${FIRST_STRONG_ISOLATE}${shown}${POP_ISOLATE}` : shown;
};
