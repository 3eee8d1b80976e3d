/**
 * Replaces ids inside a stored document: every text that is a key of `names`, at any depth and also in fields that
 * this studio does not know. Ids are long and random, so no other text equals one.
 */
export const renamed = (document: unknown, names: ReadonlyMap<string, string>): unknown => {
  if (typeof document === 'string') return names.get(document) ?? document;
  if (Array.isArray(document)) return document.map((value) => renamed(value, names));
  if (typeof document !== 'object' || document === null) return document;
  return Object.fromEntries(
    Object.entries(document).map(([key, value]) => [key, renamed(value, names)]),
  );
};
