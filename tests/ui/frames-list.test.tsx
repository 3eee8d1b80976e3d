import { screen, within } from '@testing-library/react';
import { beforeEach, describe, expect, test } from 'vitest';
import { FrameList } from '../../src/benches/frames/FrameList.tsx';
import { SequenceNotes } from '../../src/benches/frames/SequenceNotes.tsx';
import { newJob } from '../../src/job/schema/job.ts';
import type { Studio } from '../../src/studio/studio.ts';
import { makeStudio } from '../studio/support.ts';
import { layOut, renderIn } from './in-studio.tsx';

let studio: Studio;

const lay = (...names: string[]) =>
  studio.document.getState().open({
    ...newJob(),
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
const order = () => studio.document.getState().job.frames.map(({ name }) => name);
const row = (name: string) => screen.getByRole('row', { name: new RegExp(name) });

beforeEach(() => {
  layOut();
  studio = makeStudio();
  lay('p_1', 'p_2', 'p_3', 'p_4');
});

describe('the list by keyboard', () => {
  const entered = async () => {
    const { user } = renderIn(studio, <FrameList />);
    await user.click(row('p_2'));
    expect(row('p_2')).toHaveAttribute('aria-selected', 'true');
    return user;
  };

  test('Alt with an arrow moves the chosen frame and says where it is now', async () => {
    const user = await entered();
    await user.keyboard('{Alt>}{ArrowRight}{/Alt}');
    expect(order()).toEqual(['p_1', 'p_3', 'p_2', 'p_4']);
    expect(studio.work.getState().announced.said).toBe('p_2 is now 3 of 4.');
    await user.keyboard('{Alt>}{ArrowLeft}{ArrowLeft}{ArrowLeft}{/Alt}');
    expect(order()).toEqual(['p_2', 'p_1', 'p_3', 'p_4']);
    expect(studio.work.getState().announced.said).toBe('Already the first.');
  });

  test('Delete and Backspace take out what is chosen; undo brings it back', async () => {
    const user = await entered();
    await user.keyboard('{Delete}');
    expect(order()).toEqual(['p_1', 'p_3', 'p_4']);
    studio.document.getState().undo();
    expect(order()).toEqual(['p_1', 'p_2', 'p_3', 'p_4']);
    await user.click(row('p_4'));
    await user.keyboard('{Backspace}');
    expect(order()).toEqual(['p_1', 'p_2', 'p_3']);
  });

  test('all chosen are moved and removed together', async () => {
    const user = await entered();
    await user.keyboard('{Shift>}{ArrowRight}{/Shift}');
    await user.keyboard('{Alt>}{ArrowRight}{/Alt}');
    expect(order()).toEqual(['p_1', 'p_4', 'p_2', 'p_3']);
    await user.click(screen.getByRole('button', { name: 'Remove 2' }));
    expect(order()).toEqual(['p_1', 'p_4']);
  });

  test('the buttons do the same', async () => {
    const user = await entered();
    await user.click(screen.getByRole('button', { name: 'Move earlier' }));
    expect(order()[0]).toBe('p_2');
    await user.click(screen.getByRole('button', { name: 'Sort by name' }));
    expect(order()).toEqual(['p_1', 'p_2', 'p_3', 'p_4']);
    await user.click(screen.getByRole('button', { name: 'Reverse order' }));
    expect(order()).toEqual(['p_4', 'p_3', 'p_2', 'p_1']);
    await user.click(screen.getByRole('button', { name: 'Remove all' }));
    expect(order()).toEqual([]);
  });
});

describe('what is worth knowing', () => {
  test('a gap is named while it is there', () => {
    lay('p_1', 'p_3', 'p_4');
    renderIn(studio, <SequenceNotes />);
    expect(screen.getByText('Frame 2 is missing between p_1 and p_3.')).toBeInTheDocument();
  });

  test('a note on a file can be dismissed', async () => {
    studio.work.setState({
      arrivalNotes: [{ id: 'n', severity: 'problem', file: 'gull.png', message: 'It is damaged.' }],
    });
    const { user } = renderIn(studio, <SequenceNotes />);
    const note = screen.getByRole('listitem');
    expect(note).toHaveTextContent('Problem: gull.png: It is damaged.');
    await user.click(within(note).getByRole('button', { name: 'Dismiss the note on gull.png' }));
    expect(screen.queryByText('It is damaged.')).toBeNull();
  });
});
