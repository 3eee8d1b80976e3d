/** The panel of several prints in a studio: what is printed in the free edge, drawn, and told where it finds no room. */
import { fireEvent, screen } from '@testing-library/react';
import { beforeEach, expect, it } from 'vitest';
import { GangPanel } from '../../src/benches/mount/gang/GangPanel.tsx';
import { setGang } from '../../src/job/facts/gang.ts';
import { setPage } from '../../src/job/facts/page.ts';
import { newJob } from '../../src/job/schema/job.ts';
import type { Studio } from '../../src/studio/studio.ts';
import { makeStudio } from '../studio/support.ts';
import { renderIn } from './in-studio.tsx';

let studio: Studio;

const cards = (edgeMm = 8) =>
  setGang(
    { ...newJob(), print: { widthMm: 60, heightMm: 80, viewingDistanceMm: 400 } },
    { on: true, edgeMm },
  );
const rails = () =>
  screen.getByRole('img', { name: /^Lens sheet with/ }).querySelectorAll('[class*=rail]');

beforeEach(() => {
  studio = makeStudio();
});

it('leaves off what is not ticked, on the drawing as in the words', () => {
  studio.document.getState().open(cards());
  const { container } = renderIn(studio, <GangPanel />);
  expect(rails()).toHaveLength(4);
  expect(container.textContent).toContain('The rails lie under the lens');
  expect(container.textContent).toContain('crop marks in the free edge carry the numbers');
  for (const name of ['Rails at all four sides', 'Crop marks for every cut'])
    fireEvent.click(screen.getByRole('checkbox', { name }));
  expect(rails()).toHaveLength(0);
  expect(studio.document.getState().job.page).toMatchObject({ rails: false, marks: false });
  expect(container.textContent).not.toMatch(/The rails lie|crop marks in the free edge/);
});

it('says how many cuts find no room for a crop mark, and nothing of what is not ticked', () => {
  studio.document.getState().open(cards(0.5));
  renderIn(studio, <GangPanel />);
  expect(screen.getByText('No room for all crop marks')).toBeTruthy();
  expect(screen.getByText('No room for rails')).toBeTruthy();
  // Four columns of four: eight cuts through the sheet, then eight in each strip.
  expect(screen.getByText(/^40 of 40 cuts have none/)).toBeTruthy();
});

it('says nothing of room that is not asked for', () => {
  studio.document.getState().open(setPage(cards(0.5), { rails: false, marks: false }));
  renderIn(studio, <GangPanel />);
  expect(screen.queryByText(/^No room for/)).toBeNull();
});
