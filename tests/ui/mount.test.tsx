/** The checklist of the Mount bench in a studio: ticks, undo, units, warnings, the page. */
import { act, screen, within } from '@testing-library/react';
import { beforeEach, expect, it, vi } from 'vitest';
import Mount from '../../src/benches/mount/index.tsx';
import { newJob } from '../../src/job/schema/job.ts';
import type { Studio } from '../../src/studio/studio.ts';
import { makeStudio } from '../studio/support.ts';
import { renderIn } from './in-studio.tsx';

let studio: Studio;

const box = (name: string | RegExp) => screen.getByRole('checkbox', { name });
const undo = () => act(() => studio.document.getState().undo());
const startAgain = () => screen.getByRole('button', { name: 'Start again' });
const progress = () => screen.getByRole('progressbar', { name: 'Done' });

const setUp = () => renderIn(studio, <Mount />).user;

beforeEach(() => {
  studio = makeStudio();
});

it('ticks by the keyboard, counts, takes back, and starts again as one step', async () => {
  const user = setUp();
  const count = screen.getAllByRole('checkbox').length;
  expect(startAgain()).toHaveAttribute('aria-disabled', 'true');
  box('No scaling.').focus();
  await user.keyboard(' ');
  await user.tab();
  await user.keyboard(' ');
  expect(studio.document.getState().job.mountTicks).toEqual(['no-scaling', 'no-enhancement']);
  expect(progress()).toHaveAttribute(
    'aria-valuetext',
    expect.stringContaining(`2 of ${count} steps`),
  );
  undo();
  expect(box('No enhancement.')).not.toBeChecked();
  expect(box('No scaling.')).toBeChecked();
  await user.click(startAgain());
  expect(box('No scaling.')).not.toBeChecked();
  undo();
  expect(box('No scaling.')).toBeChecked();
});

it('shows each step with its reason, its numbers in the shown unit, and who could be hurt', async () => {
  const user = setUp();
  // Relation 7 by hand: 0.25 × 25.4 / 60 = 0.106 mm, 0.0042 in.
  expect(box('Square it.')).toHaveAccessibleDescription(/0\.11 mm at one end/);
  act(() => studio.view.getState().set({ units: 'in' }));
  expect(box('Square it.')).toHaveAccessibleDescription(/0\.0042 in at one end/);
  const cut = box('First cut the left and right edges.').closest('li') as HTMLElement;
  // One stage is open at first, the others by a press.
  expect(within(cut).getByText(/Cut away from the hand/)).not.toBeVisible();
  await user.click(screen.getByRole('heading', { name: 'Trim and show' }));
  expect(within(cut).getByText(/Cut away from the hand/)).toBeVisible();
  expect(within(cut).getByText(/other cuts are squared to this one/)).toBeVisible();
  expect(screen.getByText(/gives way to your local rules/)).toBeVisible();
});

it('warns of a nominal pitch until it is proved', () => {
  setUp();
  expect(box('Prove the pitch first.')).toBeVisible();
  expect(screen.getByRole('link', { name: 'Go to Calibrate' })).toHaveAttribute(
    'href',
    '#/calibrate',
  );
  act(() =>
    studio.document.getState().open({
      ...newJob(),
      provedPitch: { viewingPitchMm: 25.4 / 59.9, readFromMm: 400, plusMinusLpi: 0.02 },
    }),
  );
  expect(screen.queryByRole('checkbox', { name: /Prove the pitch/ })).toBeNull();
});

it('saves the page, and says what its type cannot show', async () => {
  const user = setUp();
  const files: Blob[] = [];
  const made = vi.fn((file: Blob) => {
    files.push(file);
    return 'blob:page';
  });
  // jsdom has neither.
  Object.assign(URL, { createObjectURL: made, revokeObjectURL: vi.fn() });
  let saved = '';
  vi.spyOn(HTMLAnchorElement.prototype, 'click').mockImplementation(function (
    this: HTMLAnchorElement,
  ) {
    saved = this.download;
  });
  act(() => studio.document.getState().open({ ...newJob(), name: 'Garden: 温室' }));
  await user.click(screen.getByRole('button', { name: 'Save the page to pin up' }));
  expect(await screen.findByText(/type lacks 温 室/, {}, { timeout: 20_000 })).toBeVisible();
  expect(saved).toBe('Garden 温室 mounting.pdf');
  expect(files[0]?.type).toBe('application/pdf');
  expect(files[0]?.size).toBeGreaterThan(1000);
});
