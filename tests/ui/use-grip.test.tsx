/** A grip on a drawing, without a bench around it. jsdom lays nothing out: places are the page's. */
import { fireEvent, render, screen } from '@testing-library/react';
import { beforeEach, expect, it, vi } from 'vitest';
import { useGrip } from '../../src/ui/index.ts';

const drop = vi.fn<(to: number) => void>();
const cancel = vi.fn<(first: number) => void>();
const step = vi.fn();

const Drawn = ({ toEnds }: { readonly toEnds: boolean }) => {
  const { draft, handlers } = useGrip({
    toEnds,
    take: () => 100,
    pull: (first: number, { dx }) => first + dx,
    drop,
    cancel,
    step,
  });
  return (
    <div role="slider" aria-valuenow={draft ?? 100} tabIndex={0} {...handlers}>
      grip
    </div>
  );
};

const grip = () => screen.getByRole('slider');
/** React asks for the type alone; jsdom's own pointer events have no place. */
const pointer = (type: string, clientX: number) =>
  fireEvent(grip(), new MouseEvent(type, { bubbles: true, clientX }));
const now = () => grip().getAttribute('aria-valuenow');

beforeEach(() => {
  vi.clearAllMocks();
  HTMLElement.prototype.setPointerCapture = vi.fn();
});

it('shows a drag as it goes and tells it once, where it was let go', () => {
  render(<Drawn toEnds={false} />);
  pointer('pointermove', 30);
  expect(now()).toBe('100');
  pointer('pointerdown', 50);
  pointer('pointermove', 60);
  pointer('pointermove', 80);
  expect(now()).toBe('130');
  expect(drop).not.toHaveBeenCalled();
  pointer('pointerup', 85);
  expect(drop.mock.calls).toEqual([[135]]);
  expect(now()).toBe('100');
  pointer('pointermove', 90);
  expect(now()).toBe('100');
});

it('tells nothing of a press that does not move, but all of a drag that comes back', () => {
  render(<Drawn toEnds={false} />);
  pointer('pointerdown', 50);
  pointer('pointerup', 50);
  expect(drop).not.toHaveBeenCalled();
  pointer('pointerdown', 50);
  pointer('pointermove', 60);
  pointer('pointermove', 50);
  expect(now()).toBe('100');
  pointer('pointerup', 50);
  expect(drop.mock.calls).toEqual([[100]]);
});

it.each([
  ['Escape', () => fireEvent.keyDown(grip(), { key: 'Escape' })],
  ['a pointer that is taken away', () => pointer('pointercancel', 70)],
])('drops the drag on %s', (_, end) => {
  render(<Drawn toEnds={false} />);
  pointer('pointerdown', 50);
  pointer('pointermove', 70);
  end();
  expect(cancel.mock.calls).toEqual([[100]]);
  expect(now()).toBe('100');
  pointer('pointerup', 80);
  expect(drop).not.toHaveBeenCalled();
});

it('steps by arrows, and big with Shift and by the Page keys', () => {
  const { rerender } = render(<Drawn toEnds={false} />);
  for (const key of ['ArrowRight', 'ArrowUp', 'PageDown', 'Home', 'a'])
    fireEvent.keyDown(grip(), { key });
  fireEvent.keyDown(grip(), { key: 'ArrowLeft', shiftKey: true });
  expect(step.mock.calls).toEqual([
    [1, 0, false],
    [0, -1, false],
    [0, 1, true],
    [-1, 0, true],
  ]);
  rerender(<Drawn toEnds />);
  fireEvent.keyDown(grip(), { key: 'End' });
  expect(step).toHaveBeenLastCalledWith(Infinity, 0, false);
});
