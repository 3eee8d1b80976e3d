/** The one card of a list that the Tab key comes to, and that holds the focus while it is in the list. */
import type { FocusEvent, RefObject } from 'react';
import { useLayoutEffect, useRef, useState } from 'react';

/** Scrolled no further than it must be to lie whole in the list. */
const reveal = (list: HTMLElement, card: HTMLElement, marginPx: number): void => {
  const top = card.offsetTop - marginPx;
  const below = card.offsetTop + card.offsetHeight + marginPx - list.clientHeight;
  if (list.scrollTop > top) list.scrollTop = top;
  else if (list.scrollTop < below) list.scrollTop = below;
};

/**
 * @param ids of all cards, in order
 * @param marginPx kept free around the card that the list is scrolled to
 */
export const useCurrent = (
  list: RefObject<HTMLElement | null>,
  ids: readonly string[],
  marginPx: number,
) => {
  const [last, setLast] = useState({ id: '', index: 0 });
  const found = ids.indexOf(last.id);
  // Where one was taken out, the next takes its place.
  const index = found >= 0 ? found : Math.min(last.index, ids.length - 1);
  const id = ids[index] ?? '';
  if (last.index !== index || last.id !== id) setLast({ id, index });
  const hasFocus = useRef(false);
  const shown = useRef({ id, index });
  useLayoutEffect(() => {
    const moved = shown.current.id === id && shown.current.index !== index;
    shown.current = { id, index };
    const card = list.current?.querySelector<HTMLElement>('[role="row"][tabindex="0"]');
    if (!hasFocus.current || card === null || card === undefined || list.current === null) return;
    const has = card.contains(document.activeElement);
    if (has && !moved) return;
    reveal(list.current, card, marginPx);
    if (!has) card.focus();
  }, [list, id, index, marginPx]);
  return {
    index,
    id,
    /** With the focus, where the list has it. */
    goTo: (to: number) => setLast({ id: ids[to] ?? '', index: to }),
    handlers: {
      onFocus: ({ target }: FocusEvent) => {
        hasFocus.current = true;
        const to = ids.indexOf(target.closest('[role="row"]')?.getAttribute('data-id') ?? '');
        if (to >= 0) setLast({ id: ids[to] ?? '', index: to });
      },
      // Not told of a card that goes with the focus in it: then the list has it still.
      onBlur: ({ currentTarget, relatedTarget }: FocusEvent) => {
        hasFocus.current = currentTarget.contains(relatedTarget);
      },
    },
  };
};
