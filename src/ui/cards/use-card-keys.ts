/** The keys of a list of cards: from card to card, and what is chosen by them. */
import type { KeyboardEvent } from 'react';
import type { Choice, Choosing } from './choosing.ts';
import { howHeld } from './choosing.ts';
import type { CardGrid } from './grid.ts';
import { stepBy } from './grid.ts';
import { useTyped } from './use-typed.ts';

interface Setting<Item> {
  readonly items: readonly Item[];
  nameOf(item: Item): string;
  readonly ids: readonly string[];
  readonly grid: CardGrid;
  /** Height of what is in view. */
  readonly pagePx: number;
  readonly choice: Choice;
  onChoose(choice: Choice): void;
  /** The focus goes along. */
  pick(index: number, how: Choosing): void;
  readonly current: { readonly index: number; readonly id: string; goTo(index: number): void };
  onKey(event: KeyboardEvent, id: string): boolean;
}

export const useCardKeys = <Item>(list: Setting<Item>) => {
  const { ids, grid, choice, current, pick, onChoose } = list;
  const typed = useTyped(list.items, list.nameOf);

  /** What the key does here; undefined for one that means nothing. */
  const deedOf = (event: KeyboardEvent): (() => void) | undefined => {
    const { key, ctrlKey, metaKey, shiftKey } = event;
    const commanded = ctrlKey || metaKey;
    if (event.altKey) return undefined;
    const to = stepBy(grid, current.index, key, list.pagePx);
    if (to !== undefined) {
      // With Ctrl the focus goes alone.
      if (commanded && !shiftKey) return () => current.goTo(to);
      return () => pick(to, shiftKey ? 'upTo' : 'only');
    }
    if (key === 'Enter' || (key === ' ' && !typed.goesOn(event)))
      return () => pick(current.index, howHeld(event));
    if (commanded && key.toLowerCase() === 'a')
      return () => onChoose({ chosen: new Set(ids), from: ids[0] });
    if (key === 'Escape' && choice.chosen.size > 0) return () => onChoose({ chosen: new Set() });
    if (commanded || key.length !== 1) return undefined;
    const found = typed.find(event, current.index);
    return found < 0 ? undefined : () => pick(found, 'only');
  };

  return (event: KeyboardEvent): void => {
    const commanded = event.ctrlKey || event.metaKey;
    const taken = !commanded && list.onKey(event, current.id);
    const deed = taken ? undefined : deedOf(event);
    if (!taken && deed === undefined) return;
    event.preventDefault();
    event.stopPropagation();
    deed?.();
  };
};
