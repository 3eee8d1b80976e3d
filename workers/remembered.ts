/** What a worker keeps from call to call, because the next call most likely needs it again. */

/** Keeps what was made for the last value: the bands of one sheet all ask for the same. */
export const lastMade = <Of, Made>(make: (of: Of) => Made): ((of: Of) => Made) => {
  let last: { readonly key: string; readonly made: Made } | undefined;
  return (of) => {
    const key = JSON.stringify(of);
    if (last?.key !== key) last = { key, made: make(of) };
    return last.made;
  };
};

/** Keeps the last `most` results by key. */
export const lastFew = <Made>(most: number) => {
  const kept = new Map<string, Made>();
  return async (key: string, make: () => Promise<Made>): Promise<Made> => {
    const had = kept.get(key);
    if (had !== undefined) return had;
    // Make room first, so that memory never holds more than `most`.
    for (const oldest of kept.keys()) {
      if (kept.size < most) break;
      kept.delete(oldest);
    }
    const made = await make();
    kept.set(key, made);
    return made;
  };
};
