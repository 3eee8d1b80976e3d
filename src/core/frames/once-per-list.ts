/** Lists of frames are made anew and never changed, so what follows from one is found once and kept as long as the list. */
export const oncePerList = <Item, Found>(
  find: (items: readonly Item[]) => Found,
): ((items: readonly Item[]) => Found) => {
  const known = new WeakMap<readonly Item[], { readonly found: Found }>();
  return (items) => {
    const before = known.get(items);
    if (before !== undefined) return before.found;
    const found = find(items);
    known.set(items, { found });
    return found;
  };
};
