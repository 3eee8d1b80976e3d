/** Which cards of a list are chosen, as lists of files have it everywhere: one, one more or less, or all up to here. */

/** `only` it, `also` or no longer, `upTo` it from where the choice began. */
export type Choosing = 'only' | 'also' | 'upTo';

export interface Choice {
  readonly chosen: ReadonlySet<string>;
  /** Where the choice began. */
  readonly from?: string | undefined;
}

/** @param ids of all cards, in order */
export const choose = (
  { chosen, from }: Choice,
  ids: readonly string[],
  id: string,
  how: Choosing,
): Choice => {
  if (how === 'also') {
    const next = new Set(chosen);
    if (!next.delete(id)) next.add(id);
    return { chosen: next, from: id };
  }
  const began = how === 'upTo' && from !== undefined ? ids.indexOf(from) : -1;
  if (began < 0) return { chosen: new Set([id]), from: id };
  const to = ids.indexOf(id);
  return { chosen: new Set(ids.slice(Math.min(began, to), Math.max(began, to) + 1)), from };
};

interface Held {
  readonly shiftKey: boolean;
  readonly ctrlKey: boolean;
  readonly metaKey: boolean;
}

export const howHeld = ({ shiftKey, ctrlKey, metaKey }: Held): Choosing =>
  shiftKey ? 'upTo' : ctrlKey || metaKey ? 'also' : 'only';
