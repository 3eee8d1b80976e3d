/** Finds a card by the first letters of its name, typed one after the other. */
import type { KeyboardEvent } from 'react';
import { useRef } from 'react';

/** After so long another name begins. */
const PAUSE_MS = 1000;

export const useTyped = <Item>(items: readonly Item[], nameOf: (item: Item) => string) => {
  const typed = useRef({ text: '', at: -Infinity });
  const goesOn = ({ timeStamp }: KeyboardEvent) => timeStamp - typed.current.at < PAUSE_MS;
  return {
    /** Whether a name is being typed: a space then belongs to it. */
    goesOn,
    /** @returns the next from the current one on whose name begins so; −1 for none */
    find: (event: KeyboardEvent, current: number): number => {
      const before = goesOn(event) ? typed.current.text : '';
      const text = (before + event.key).toLowerCase();
      typed.current = { text, at: event.timeStamp };
      // A first letter leads on from where the focus is; more letters may still mean that very card.
      const from = before === '' ? current + 1 : current;
      for (let step = 0; step < items.length; step += 1) {
        const at = (from + step) % items.length;
        if (
          nameOf(items[at] as Item)
            .toLowerCase()
            .startsWith(text)
        )
          return at;
      }
      return -1;
    },
  };
};
