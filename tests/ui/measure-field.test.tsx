/** The measure field alone: commit, refuse, restore, step. */
import { fireEvent, render, screen } from '@testing-library/react';
import { userEvent } from '@testing-library/user-event';
import { useState } from 'react';
import { describe, expect, it, vi } from 'vitest';
import { lengthMeasure } from '../../src/core/units/measure.ts';
import { MeasureField } from '../../src/ui/index.ts';

const commits = vi.fn<(value: number, unit: string, how: string) => void>();

const Harness = ({ units = 'mm' as 'mm' | 'in' }) => {
  const [value, setValue] = useState(100);
  return (
    <>
      <MeasureField
        label="Length"
        value={value}
        measure={lengthMeasure(units)}
        hint="Between 1 and 1000 mm."
        onCommit={(next, unit, how) => {
          if (next > 1000) return 'Length must be at most 1000 mm.';
          commits(next, unit, how);
          setValue(next);
          return undefined;
        }}
      />
      <button type="button" onClick={() => setValue(55)}>
        Elsewhere
      </button>
    </>
  );
};

const setUp = () => {
  commits.mockClear();
  render(<Harness />);
  return { field: screen.getByRole('textbox', { name: 'Length' }), user: userEvent.setup() };
};

describe('MeasureField', () => {
  it('commits on Enter, in any unit, and shows its own', async () => {
    const { field, user } = setUp();
    await user.clear(field);
    await user.type(field, '8 in{Enter}');
    expect(commits).toHaveBeenCalledExactlyOnceWith(203.2, 'in', 'typed');
    expect(field).toHaveValue('203.2');
    expect(field).toHaveAccessibleDescription(/mm/);
  });

  it('commits on leaving, and not at all when nothing was changed', async () => {
    const { field, user } = setUp();
    await user.click(field);
    await user.tab();
    expect(commits).not.toHaveBeenCalled();
    await user.clear(field);
    await user.type(field, '12 cm');
    expect(commits).not.toHaveBeenCalled();
    await user.tab();
    expect(commits).toHaveBeenCalledExactlyOnceWith(120, 'mm', 'typed');
  });

  it.each([
    ['wide', /not a number/],
    ['2 m', /at most 1000 mm/],
  ])('keeps %j in the field with the error beside it', async (text, why) => {
    const { field, user } = setUp();
    await user.clear(field);
    await user.type(field, text);
    await user.tab();
    expect(field).toHaveValue(text);
    expect(field).toBeInvalid();
    expect(field).toHaveAccessibleDescription(why);
    expect(commits).not.toHaveBeenCalled();
    await user.click(field);
    await user.keyboard('{Escape}');
    expect(field).toHaveValue('100');
    expect(field).toBeValid();
    expect(field).toHaveAccessibleDescription(/Between 1 and 1000/);
  });

  it('lets go of refused text when the value changes elsewhere', async () => {
    const { field, user } = setUp();
    await user.clear(field);
    await user.type(field, 'wide{Enter}');
    await user.click(screen.getByRole('button', { name: 'Elsewhere' }));
    expect(field).toHaveValue('55');
    expect(field).toBeValid();
  });

  it('steps with the arrow keys, and in tens with the page keys', async () => {
    const { field, user } = setUp();
    await user.click(field);
    await user.keyboard('{ArrowUp}{ArrowUp}{ArrowDown}{PageUp}');
    expect(commits.mock.calls.map(([value]) => value)).toEqual([101, 102, 101, 110]);
    expect(commits.mock.calls.every(([, , how]) => how === 'stepped')).toBe(true);
  });

  it('shows the same length in another unit without touching it', () => {
    commits.mockClear();
    const { rerender } = render(<Harness />);
    rerender(<Harness units="in" />);
    const field = screen.getByRole('textbox', { name: 'Length' });
    // 100 mm / 25.4.
    expect(field).toHaveValue('3.937');
    fireEvent.blur(field);
    expect(commits).not.toHaveBeenCalled();
  });
});
