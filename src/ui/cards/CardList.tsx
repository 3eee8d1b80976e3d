/**
 * A list of cards in columns, of which only those in view are drawn, however many there are. To assistive
 * technology it is a grid with one cell in a row (WAI-ARIA 1.2), where the arrow keys lead from card to card.
 */
import type { CSSProperties, DragEvent, KeyboardEvent, MouseEvent, ReactNode } from 'react';
import { useId, useRef } from 'react';
import styles from './CardList.module.css';
import type { Choice, Choosing } from './choosing.ts';
import { choose, howHeld } from './choosing.ts';
import type { CardGrid, CardPlace, CardSize } from './grid.ts';
import { cardGrid, cardsBetween, placeOf } from './grid.ts';
import type { CardDrag } from './use-card-drag.ts';
import { useCardDrag } from './use-card-drag.ts';
import { useCardKeys } from './use-card-keys.ts';
import { useCurrent } from './use-current.ts';
import { remPx, useRoom } from './use-room.ts';

interface Props<Item> {
  readonly label: string;
  /** Id of what explains the keys. */
  readonly describedBy: string;
  /** Of the list, and of each card. */
  readonly className: string;
  readonly cardClass: string;
  /** In rem. */
  readonly size: CardSize;
  readonly items: readonly Item[];
  /** What a card is called. It is found by its first letters, too. */
  nameOf(item: Item): string;
  readonly choice: Choice;
  onChoose(choice: Choice): void;
  /** Keys that mean something of their own. @returns whether it was one of them */
  onKey(event: KeyboardEvent, id: string): boolean;
  readonly drag: CardDrag;
  /** @param aboutId what says more of the card than its name has this id */
  children(item: Item, aboutId: string): ReactNode;
}

/** A finger chooses one more with each tap, and so does a press by what reads the page aloud. */
const howPressed = (event: MouseEvent): Choosing => {
  const { pointerType } = event.nativeEvent as PointerEvent;
  return pointerType === 'touch' || event.detail === 0 ? 'also' : howHeld(event);
};

/** A line where what is dragged would go. */
const Drop = ({ grid, over: { index, side } }: { grid: CardGrid; over: CardPlace }) => {
  const { left, top } = placeOf(grid, index);
  const aside = side === 'before' ? -grid.gap / 2 : grid.width + grid.gap / 2;
  const style = { left: left + aside - 2, top, height: grid.height };
  return <div className={styles['drop']} style={style} aria-hidden="true" />;
};

/** The cards that are drawn: those in view, and the one that the focus comes to. */
const drawnOf = (grid: CardGrid, top: number, height: number, current: number): number[] => {
  if (grid.columns === 0) return [];
  const [first, after] = cardsBetween(grid, top, height);
  const drawn = Array.from({ length: Math.max(0, after - first) }, (_, at) => first + at);
  if (current >= first && current < after) return drawn;
  return current < first ? [current, ...drawn] : [...drawn, current];
};

interface CardProps {
  readonly id: string;
  readonly index: number;
  readonly name: string;
  readonly about: string;
  readonly chosen: boolean;
  readonly current: boolean;
  readonly dragged: boolean;
  readonly className: string;
  readonly style: CSSProperties;
  onDragStart(event: DragEvent): void;
  onPress(event: MouseEvent): void;
  readonly children: ReactNode;
}

const Card = ({ id, index, name, about, chosen, current, dragged, ...rest }: CardProps) => (
  <div
    role="row"
    aria-rowindex={index + 1}
    aria-label={name}
    aria-describedby={about}
    aria-selected={chosen}
    tabIndex={current ? 0 : -1}
    data-id={id}
    data-dragged={dragged || undefined}
    className={`${styles['card']} ${rest.className}`}
    style={rest.style}
    draggable
    onDragStart={rest.onDragStart}
    onClick={rest.onPress}
  >
    <div role="gridcell">{rest.children}</div>
  </div>
);

export const CardList = <Item extends { readonly id: string }>(props: Props<Item>) => {
  const { items, nameOf, choice, onChoose } = props;
  const aboutId = useId();
  const list = useRef<HTMLDivElement>(null);
  const field = useRef<HTMLDivElement>(null);
  const rem = remPx();
  const size = {
    width: props.size.width * rem,
    height: props.size.height * rem,
    gap: props.size.gap * rem,
  };
  const { room, onScroll } = useRoom(list, size.height + size.gap);
  const grid = cardGrid(items.length, room.width, size);
  const ids = items.map(({ id }) => id);
  const current = useCurrent(list, ids, size.gap);
  const drag = useCardDrag({ ...props.drag, grid, ids, chosen: choice.chosen, field });
  const pick = (index: number, how: Choosing) => {
    const id = ids[index];
    if (id === undefined) return;
    current.goTo(index);
    onChoose(choose(choice, ids, id, how));
  };
  const onKeyDown = useCardKeys({ ...props, grid, ids, current, pick, pagePx: room.height });

  return (
    <div
      ref={list}
      role="grid"
      aria-label={props.label}
      aria-describedby={props.describedBy}
      aria-rowcount={items.length}
      aria-multiselectable="true"
      className={`${styles['list']} ${props.className}`}
      onScroll={onScroll}
      onKeyDown={onKeyDown}
      {...current.handlers}
      {...drag.handlers}
    >
      <div
        ref={field}
        role="presentation"
        className={styles['field']}
        style={{ height: grid.whole }}
      >
        {drawnOf(grid, room.top, room.height, current.index).map((index) => {
          const item = items[index];
          if (item === undefined) return null;
          const about = `${aboutId}-${item.id}`;
          return (
            <Card
              key={item.id}
              id={item.id}
              index={index}
              name={nameOf(item)}
              about={about}
              chosen={choice.chosen.has(item.id)}
              current={index === current.index}
              dragged={drag.dragged.has(item.id)}
              className={props.cardClass}
              style={{ ...placeOf(grid, index), width: grid.width, height: grid.height }}
              onDragStart={(event) => drag.onDragStart(event, item.id)}
              onPress={(event) => pick(index, howPressed(event))}
            >
              {props.children(item, about)}
            </Card>
          );
        })}
        {drag.over !== undefined && <Drop grid={grid} over={drag.over} />}
      </div>
    </div>
  );
};
