/**
 * The list of cards by keyboard and by pointer. What the keys do is that of WAI-ARIA 1.2 (`grid`) and of the
 * ARIA Authoring Practices (grid navigation, multi-select listbox: Shift extends, Ctrl adds, letters find).
 */
import { fireEvent, render, screen } from '@testing-library/react';
import { userEvent } from '@testing-library/user-event';
import { useState } from 'react';
import { beforeEach, describe, expect, test, vi } from 'vitest';
import { CardList } from '../../src/ui/index.ts';
import { layOut } from './in-studio.tsx';

interface Card {
  readonly id: string;
  readonly name: string;
}

const cardsOf = (count: number): Card[] =>
  Array.from({ length: count }, (_, at) => ({ id: `c${at + 1}`, name: `card ${at + 1}` }));

const onMove = vi.fn();

/** jsdom's rem is 16 px: six cards of 128 px and more in the 900 px of `layOut`. */
const List = ({ cards }: { readonly cards: readonly Card[] }) => {
  const [choice, onChoose] = useState<Parameters<typeof CardList>[0]['choice']>({
    chosen: new Set(),
  });
  return (
    <CardList
      label="Cards"
      describedBy="none"
      className=""
      cardClass=""
      size={{ width: 8, height: 10, gap: 0.5 }}
      items={cards}
      nameOf={({ name }) => name}
      choice={choice}
      onChoose={onChoose}
      onKey={() => false}
      drag={{ give: (ids) => ({ 'text/plain': [...ids].join(' ') }), onMove }}
    >
      {({ name }, id) => <p id={id}>{name}</p>}
    </CardList>
  );
};

const card = (number: number) => screen.getByRole('row', { name: `card ${number}` });
const chosen = () =>
  screen.getAllByRole('row', { selected: true }).map((row) => row.getAttribute('aria-label'));

beforeEach(() => {
  layOut();
  onMove.mockClear();
});

const drawn = (count: number) => {
  const user = userEvent.setup();
  const { rerender } = render(<List cards={cardsOf(count)} />);
  return { user, lay: (cards: readonly Card[]) => rerender(<List cards={cards} />) };
};

describe('the focus', () => {
  test.each([
    ['{ArrowRight}', 9],
    ['{ArrowLeft}', 7],
    ['{ArrowDown}', 14],
    ['{ArrowUp}', 2],
    ['{Home}', 1],
    ['{End}', 40],
  ])(
    '%s leads from the eighth card, of six in a row, to number %i, which is chosen',
    async (key, to) => {
      const { user } = drawn(40);
      await user.click(card(8));
      await user.keyboard(key);
      expect(card(to)).toHaveFocus();
      expect(chosen()).toEqual([`card ${to}`]);
    },
  );

  test('stays in the first and last row where up and down lead out of the list', async () => {
    const { user } = drawn(40);
    await user.click(card(3));
    await user.keyboard('{ArrowUp}');
    expect(card(3)).toHaveFocus();
    await user.keyboard('{End}{ArrowDown}');
    expect(card(40)).toHaveFocus();
  });

  test('comes in by one Tab, to where it was, and leaves by the next', async () => {
    const { user } = drawn(40);
    await user.tab();
    expect(card(1)).toHaveFocus();
    await user.keyboard('{ArrowRight}{ArrowRight}');
    await user.tab();
    expect(document.body).toHaveFocus();
    await user.tab();
    expect(card(3)).toHaveFocus();
  });

  test('goes to the next card where its own is taken out, and to the last at the end', async () => {
    const { user, lay } = drawn(4);
    await user.click(card(2));
    lay(cardsOf(4).filter(({ id }) => id !== 'c2'));
    expect(card(3)).toHaveFocus();
    await user.keyboard('{End}');
    lay(cardsOf(4).slice(0, 3));
    expect(card(3)).toHaveFocus();
  });

  test('moves with its card', async () => {
    const { user, lay } = drawn(4);
    await user.click(card(1));
    lay([...cardsOf(4)].reverse());
    expect(card(1)).toHaveFocus();
    expect(card(1)).toHaveAttribute('aria-rowindex', '4');
  });

  test('finds a card by the letters of its name', async () => {
    const { user } = drawn(40);
    await user.click(card(2));
    await user.keyboard('card 31');
    expect(card(31)).toHaveFocus();
  });
});

describe('what is chosen', () => {
  test('Shift takes all from where the choice began, Ctrl one more or less, Ctrl+A all, Escape none', async () => {
    const { user } = drawn(9);
    await user.click(card(2));
    await user.keyboard('{Shift>}{ArrowRight}{ArrowRight}{ArrowLeft}{/Shift}');
    expect(chosen()).toEqual(['card 2', 'card 3']);
    await user.keyboard('{Control>}{ArrowRight}{ArrowRight} {/Control}');
    expect(chosen()).toEqual(['card 2', 'card 3', 'card 5']);
    await user.keyboard('{Control>}a{/Control}');
    expect(chosen()).toHaveLength(9);
    await user.keyboard('{Escape}');
    expect(screen.queryAllByRole('row', { selected: true })).toEqual([]);
  });

  test('a press does the same', async () => {
    const { user } = drawn(9);
    await user.click(card(6));
    await user.keyboard('{Shift>}');
    await user.click(card(4));
    await user.keyboard('{/Shift}{Control>}');
    await user.click(card(9));
    await user.keyboard('{/Control}');
    expect(chosen()).toEqual(['card 4', 'card 5', 'card 6', 'card 9']);
  });

  test('a tap of a finger adds', () => {
    drawn(9);
    for (const number of [2, 5])
      fireEvent(
        card(number),
        Object.assign(new MouseEvent('click', { bubbles: true, detail: 1 }), {
          pointerType: 'touch',
        }),
      );
    expect(chosen()).toEqual(['card 2', 'card 5']);
  });
});

test('of two thousand cards those in view are drawn, and the one with the focus', async () => {
  const { user } = drawn(2000);
  // 700 px, and half of it below: 1,050 px of rows 168 px apart, six cards each.
  const inView = Math.ceil(1050 / 168) * 6;
  expect(screen.getAllByRole('row')).toHaveLength(inView);
  expect(screen.getByRole('grid')).toHaveAttribute('aria-rowcount', '2000');
  await user.click(card(1));
  await user.keyboard('{End}');
  expect(card(2000)).toHaveFocus();
});

test('cards that are dragged go where they are let go: by the halves of the card beneath', () => {
  drawn(9);
  const data = new Map<string, string>();
  const dataTransfer = {
    setData: (type: string, text: string) => data.set(type, text),
    get types() {
      return [...data.keys()];
    },
  };
  const over = (x: number, y: number) =>
    fireEvent(
      screen.getByRole('grid'),
      Object.assign(
        new MouseEvent('dragover', { bubbles: true, clientX: x, clientY: y, cancelable: true }),
        {
          dataTransfer,
        },
      ),
    );
  fireEvent.dragStart(card(1), { dataTransfer });
  expect(data.get('text/plain')).toBe('c1');
  // Cards are 141 px wide and 8 px apart: the third begins at 305 px. Its right half, then the left one of the ninth.
  over(440, 90);
  fireEvent.drop(screen.getByRole('grid'), { dataTransfer });
  expect(onMove).toHaveBeenLastCalledWith(new Set(['c1']), 'c3', 'after');
  fireEvent.dragStart(card(1), { dataTransfer });
  over(310, 260);
  fireEvent.drop(screen.getByRole('grid'), { dataTransfer });
  expect(onMove).toHaveBeenLastCalledWith(new Set(['c1']), 'c9', 'before');
  // What comes from elsewhere finds no place.
  onMove.mockClear();
  over(310, 260);
  fireEvent.drop(screen.getByRole('grid'), { dataTransfer });
  expect(onMove).not.toHaveBeenCalled();
});
