import { screen, within } from '@testing-library/react';
import { beforeEach, describe, expect, test } from 'vitest';
import { SlotPanel } from '../../src/benches/frames/SlotPanel.tsx';
import { newJob } from '../../src/job/schema/job.ts';
import type { Studio } from '../../src/studio/studio.ts';
import { makeStudio } from '../studio/support.ts';
import { renderIn } from './in-studio.tsx';

let studio: Studio;

const lay = (...names: string[]) =>
  studio.document.getState().open({
    ...newJob(),
    viewSlots: 6,
    frames: names.map((name) => ({
      id: `id-${name}`,
      name,
      byteLength: 1,
      widthPx: 80,
      heightPx: 100,
      kind: 'PNG',
      sceneLinear: false,
      meanLight: 0.5,
    })),
  });
const slots = () =>
  within(screen.getByRole('radiogroup', { name: 'View slots in order' }))
    .getAllByRole('radio')
    .map((radio) => radio.getAttribute('aria-label')?.replace(/^Slot \d+: /, ''));

beforeEach(() => {
  studio = makeStudio();
  lay('a', 'b', 'c', 'd');
});

describe('recipes in the slot strip', () => {
  test('a flip: pictures, guard and guard slots by keyboard and mouse, each a step to undo', async () => {
    const { user } = renderIn(studio, <SlotPanel />);
    await user.click(screen.getByRole('radio', { name: 'Flip' }));
    expect(studio.work.getState().announced.said).toMatch(/^Flip\./);
    const guards = screen.getByRole('textbox', { name: 'Guard slots' });
    await user.clear(guards);
    await user.type(guards, '2{Enter}');
    const half = '50 % a and 50 % d';
    expect(slots()).toEqual(['a', 'a', half, half, 'd', 'd']);
    await user.selectOptions(screen.getByRole('combobox', { name: 'Picture 2' }), '2 · b');
    expect(studio.work.getState().announced.said).toBe('Picture 2 is b.');
    expect(slots().slice(4)).toEqual(['b', 'b']);
    await user.click(screen.getByRole('radio', { name: 'Grey' }));
    expect(slots()).toEqual(['a', 'a', 'plain grey', 'plain grey', 'b', 'b']);
    studio.document.getState().undo();
    studio.document.getState().undo();
    expect(studio.document.getState().job.recipe).toMatchObject({
      pictures: ['id-a', 'id-d'],
      guard: 'mean',
    });
  });

  test('guard slots that are none are refused, with a sentence', async () => {
    const { user } = renderIn(studio, <SlotPanel />);
    await user.click(screen.getByRole('radio', { name: 'Flip' }));
    const guards = screen.getByRole('textbox', { name: 'Guard slots' });
    await user.clear(guards);
    await user.type(guards, '-1{Enter}');
    expect(screen.getByText('Guard slots must be at least 0.')).toBeInTheDocument();
  });

  test('a change: a press puts a frame into the other set, and the sets can be split again', async () => {
    const { user } = renderIn(studio, <SlotPanel />);
    await user.click(screen.getByRole('radio', { name: 'Depth with a crossfade' }));
    const members = screen.getByRole('group', { name: 'Frames of the second set' });
    const first = within(members).getByRole('checkbox', { name: '1, a, in the second set' });
    expect(first).not.toBeChecked();
    first.focus();
    await user.keyboard(' ');
    expect(studio.document.getState().job.recipe).toMatchObject({
      second: ['id-a', 'id-c', 'id-d'],
    });
    await user.click(screen.getByRole('button', { name: 'Split in the middle' }));
    expect(studio.document.getState().job.recipe).toMatchObject({ second: ['id-c', 'id-d'] });
    expect(screen.getByRole('slider', { name: 'Width of the crossing' })).toHaveAttribute(
      'aria-valuetext',
      '50 % of the zone',
    );
  });

  test('the recipe There and back runs there and back, and a choice by hand wins in its slot', async () => {
    lay('a', 'b', 'c');
    const { user } = renderIn(studio, <SlotPanel />);
    await user.click(screen.getByRole('radio', { name: 'There and back' }));
    expect(slots()).toEqual(['a', 'b', 'c', 'c', 'b', 'a']);
    await user.click(screen.getByRole('radio', { name: 'Slot 2: b' }));
    await user.selectOptions(screen.getByRole('combobox', { name: 'Frame in slot 2' }), '3 · c');
    expect(slots()[1]).toBe('c, chosen by hand');
    await user.click(screen.getByRole('button', { name: 'As the recipe again' }));
    expect(slots()[1]).toBe('b');
  });

  test('a title lies over every slot, out of the sequence, at a depth said in words', async () => {
    const { user } = renderIn(studio, <SlotPanel />);
    await user.selectOptions(screen.getByRole('combobox', { name: 'Title over it' }), '2 · b');
    expect(studio.work.getState().announced.said).toBe('b lies over all slots.');
    expect(slots()).toEqual(['a', 'a', 'c', 'c', 'd', 'd'].map((name) => `${name}, under b`));
    expect(screen.getByRole('slider', { name: 'Title stands' })).toHaveAttribute(
      'aria-valuetext',
      'on the print',
    );
    await user.click(screen.getByRole('radio', { name: 'Flip' }));
    const second = screen.getByRole('combobox', { name: 'Picture 2' });
    expect(
      within(second)
        .getAllByRole('option')
        .map((one) => one.textContent),
    ).toEqual(['1 · a', '3 · c', '4 · d']);
    studio.document.getState().undo();
    studio.document.getState().undo();
    expect(studio.document.getState().job.title).toBeUndefined();
  });

  test('an animation says what two eyes see, by the way the ribs run', async () => {
    const { user } = renderIn(studio, <SlotPanel />);
    await user.click(screen.getByRole('radio', { name: 'Animation' }));
    expect(screen.getByText(/the two eyes see different moments/)).toBeInTheDocument();
  });
});
