/** Where cards of one size lie in columns, which of them are in view, and what lies where. Pixels of the page's layout. */

/** Sizes of the cards. The width is the least: a row of cards fills the list. */
export interface CardSize {
  readonly width: number;
  readonly height: number;
  /** Between cards, and around them all. */
  readonly gap: number;
}

export interface CardGrid extends CardSize {
  readonly count: number;
  readonly columns: number;
  /** Of all rows together. */
  readonly whole: number;
}

/** @param room width inside the list. No columns while it is 0, as it is until the list is laid out. */
export const cardGrid = (count: number, room: number, size: CardSize): CardGrid => {
  const { gap, height } = size;
  const columns = room > 0 ? Math.max(1, Math.floor((room - gap) / (size.width + gap))) : 0;
  const width = columns === 0 ? size.width : (room - gap * (columns + 1)) / columns;
  const rows = columns === 0 ? 0 : Math.ceil(count / columns);
  return { count, columns, width, height, gap, whole: gap + rows * (height + gap) };
};

export const rowOf = ({ columns }: CardGrid, index: number): number => Math.floor(index / columns);

/** The left and upper edge of a card. */
export const placeOf = (grid: CardGrid, index: number): { left: number; top: number } => ({
  left: grid.gap + (index % grid.columns) * (grid.width + grid.gap),
  top: grid.gap + rowOf(grid, index) * (grid.height + grid.gap),
});

/**
 * The cards between two heights, and half as many above and below, so that little is blank while it is scrolled.
 * @returns the first, and the one after the last
 */
export const cardsBetween = (grid: CardGrid, top: number, height: number): [number, number] => {
  const high = grid.height + grid.gap;
  const first = Math.floor(Math.max(0, top - height / 2) / high);
  const last = Math.ceil((top + height * 1.5) / high);
  return [first * grid.columns, Math.min(grid.count, last * grid.columns)];
};

export interface CardPlace {
  readonly index: number;
  readonly side: 'before' | 'after';
}

/** Between which cards a point lies, told by the nearest card. Undefined where there are none. */
export const gapAt = (grid: CardGrid, x: number, y: number): CardPlace | undefined => {
  const { count, columns, width, height, gap } = grid;
  if (count === 0 || columns === 0) return undefined;
  const along = (at: number, size: number) =>
    Math.max(0, Math.floor((at - gap / 2) / (size + gap)));
  const column = Math.min(columns - 1, along(x, width));
  const index = along(y, height) * columns + column;
  if (index >= count) return { index: count - 1, side: 'after' };
  return { index, side: x < placeOf(grid, index).left + width / 2 ? 'before' : 'after' };
};

/**
 * Where a key leads from a card.
 * @param room height of what is in view: by as much the Page keys step.
 * @returns undefined for a key that leads nowhere
 */
export const stepBy = (
  { count, columns, height, gap }: CardGrid,
  from: number,
  key: string,
  room: number,
): number | undefined => {
  const page = Math.max(1, Math.floor(room / (height + gap))) * columns;
  const steps: Readonly<Record<string, number>> = {
    ArrowLeft: -1,
    ArrowRight: 1,
    ArrowUp: -columns,
    ArrowDown: columns,
    PageUp: -page,
    PageDown: page,
    Home: -Infinity,
    End: Infinity,
  };
  const step = steps[key];
  if (step === undefined) return undefined;
  const to = from + step;
  // Up and down keep their column: from the first and last row they lead nowhere.
  if (Math.abs(step) === columns && columns > 1 && (to < 0 || to >= count)) return from;
  return Math.min(count - 1, Math.max(0, to));
};
