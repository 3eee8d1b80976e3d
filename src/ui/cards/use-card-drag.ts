/** Cards dragged to another place of their list, or out of it. */
import type { DragEvent, RefObject } from 'react';
import { useState } from 'react';
import type { CardGrid, CardPlace } from './grid.ts';
import { gapAt } from './grid.ts';

export interface CardDrag {
  /** What is carried along, by its type. */
  give(ids: ReadonlySet<string>): Readonly<Record<string, string>>;
  /** They were let go before or after another card. */
  onMove(ids: ReadonlySet<string>, target: string, side: CardPlace['side']): void;
}

interface Setting extends CardDrag {
  readonly grid: CardGrid;
  readonly ids: readonly string[];
  readonly chosen: ReadonlySet<string>;
  /** What holds the cards, as tall as all of them. */
  readonly field: RefObject<HTMLElement | null>;
}

const none: ReadonlySet<string> = new Set();

/** `dragged`: the cards under the pointer; `over`: where they would go. Handlers for each card, and for the list. */
export const useCardDrag = ({ grid, ids, chosen, field, give, onMove }: Setting) => {
  const [dragged, setDragged] = useState(none);
  const [over, setOver] = useState<CardPlace>();
  const end = () => {
    setDragged(none);
    setOver(undefined);
  };
  const onDragStart = ({ dataTransfer }: DragEvent, id: string) => {
    const which = chosen.has(id) ? chosen : new Set([id]);
    for (const [type, text] of Object.entries(give(which))) dataTransfer.setData(type, text);
    dataTransfer.effectAllowed = 'copyMove';
    setDragged(which);
  };
  const onDragOver = (event: DragEvent) => {
    const box = field.current?.getBoundingClientRect();
    // What comes from elsewhere has no place here.
    if (dragged.size === 0 || box === undefined) return;
    event.preventDefault();
    event.dataTransfer.dropEffect = 'move';
    const place = gapAt(grid, event.clientX - box.left, event.clientY - box.top);
    if (place?.index !== over?.index || place?.side !== over?.side) setOver(place);
  };
  const onDragLeave = ({ currentTarget, relatedTarget }: DragEvent) => {
    if (!currentTarget.contains(relatedTarget as Node | null)) setOver(undefined);
  };
  const onDrop = (event: DragEvent) => {
    const target = ids[over?.index ?? -1];
    if (dragged.size === 0) return;
    event.preventDefault();
    if (over !== undefined && target !== undefined) onMove(dragged, target, over.side);
    end();
  };
  return {
    dragged,
    over,
    onDragStart,
    handlers: { onDragOver, onDragLeave, onDrop, onDragEnd: end },
  };
};
