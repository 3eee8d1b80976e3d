/** Items by their key, in the order in which each key and each item came first. Every group holds at least one. */
export const grouped = <T, Key>(
  items: readonly T[],
  keyOf: (item: T) => Key,
): Map<Key, [T, ...T[]]> => {
  const groups = new Map<Key, [T, ...T[]]>();
  for (const item of items) {
    const group = groups.get(keyOf(item));
    if (group === undefined) groups.set(keyOf(item), [item]);
    else group.push(item);
  }
  return groups;
};
