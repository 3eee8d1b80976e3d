/** The tiles' panel in a studio: switch, numbers, undo, refusal, what cannot be split. */
import { act, fireEvent, screen, within } from '@testing-library/react';
import { beforeEach, describe, expect, it } from 'vitest';
import { TilesPanel } from '../../src/benches/mount/tiles/TilesPanel.tsx';
import { newJob } from '../../src/job/schema/job.ts';
import { starterShelves } from '../../src/materials/starters.ts';
import { setTiles } from '../../src/job/facts/tiles.ts';
import type { Studio } from '../../src/studio/studio.ts';
import { makeStudio } from '../studio/support.ts';
import { renderIn } from './in-studio.tsx';

let studio: Studio;

const job = () => studio.document.getState().job;
const type = (name: string, text: string) => {
  const field = screen.getByRole('textbox', { name });
  fireEvent.change(field, { target: { value: text } });
  fireEvent.keyDown(field, { key: 'Enter' });
};

/** 24 × 36 in from a metre away. */
const poster = () => ({
  ...newJob(),
  print: { widthMm: 609.6, heightMm: 914.4, viewingDistanceMm: 1000 },
});

beforeEach(() => {
  studio = makeStudio();
  studio.document.getState().open(poster());
  studio.shelves.getState().open(starterShelves());
});

describe('one print over several lens sheets', () => {
  it('takes the size of the lens on the shelf when it is switched on, as one step', () => {
    const shelves = starterShelves();
    const lenses = shelves.lenses.map((lens) => ({ ...lens, widthMm: 250, heightMm: 350 }));
    studio.shelves.getState().open({ ...shelves, lenses });
    renderIn(studio, <TilesPanel />);
    fireEvent.click(screen.getByRole('radio', { name: 'Several, side by side' }));
    expect(job().tiles).toMatchObject({ on: true, lensAcrossMm: 250, lensAlongMm: 350 });
    studio.document.getState().undo();
    expect(job().tiles).toBeUndefined();
  });

  it('numbers the tiles as they are laid, and says where the eye must be for each', () => {
    studio.document.getState().open(setTiles(poster(), { on: true }));
    renderIn(studio, <TilesPanel />);
    expect(screen.getByRole('img', { name: /^9 tiles to scale, 3 rows of 3/ })).toBeTruthy();
    const table = screen.getByRole('table', { name: 'The tiles in figures' });
    const [, first, second] = within(table).getAllByRole('row');
    expect(first?.textContent).toContain('Row 2 of 3, tile 2 of 3');
    expect(first?.textContent).toContain('before its middle');
    // 479.5 ribs of 25.4 / 60 mm.
    expect(second?.textContent).toContain('203 mm right of its middle');
  });

  it('takes more tiles than it must, and as few as fit when the field is emptied', () => {
    studio.document.getState().open(setTiles(poster(), { on: true }));
    renderIn(studio, <TilesPanel />);
    type('Tiles across the ribs', '4');
    expect(screen.getByRole('img', { name: /^12 tiles/ })).toBeTruthy();
    type('Tiles across the ribs', '');
    expect(screen.getByRole('img', { name: /^9 tiles/ })).toBeTruthy();
    type('Tiles along the ribs', '0');
    expect(screen.getByText(/Tiles along the ribs must be at least 1/)).toBeTruthy();
    expect(job().tiles?.along).toBeUndefined();
  });

  it('says so where nothing is left of a lens sheet, and keeps the fields to put it right', () => {
    studio.document.getState().open(setTiles(poster(), { on: true }));
    renderIn(studio, <TilesPanel />);
    type('Cut off each lens edge', '150');
    expect(screen.getByText(/Nothing is left of a lens sheet of 300 × 400 mm/)).toBeTruthy();
    expect(screen.queryByRole('button', { name: 'Weave tiles' })).toBeNull();
    type('Cut off each lens edge', '8');
    expect(screen.getByRole('button', { name: 'Weave tiles' })).toBeTruthy();
  });

  it('leaves off what is not ticked around a tile, on its page as drawn, as one step', () => {
    studio.document.getState().open(setTiles(poster(), { on: true }));
    const { container } = renderIn(studio, <TilesPanel />);
    const drawing = () => screen.getByRole('img', { name: /page of row 2 of 3, tile 2 of 3/ });
    const rails = () => drawing().querySelectorAll('[class*=rail]');
    expect(rails()).toHaveLength(4);
    fireEvent.click(screen.getByRole('checkbox', { name: 'Rails at all four sides' }));
    expect(rails()).toHaveLength(0);
    expect(job().page?.rails).toBe(false);
    fireEvent.click(screen.getByRole('checkbox', { name: 'Crop and centre marks' }));
    expect(screen.getByText('Nothing shows where a tile is cut')).toBeTruthy();
    act(() => {
      studio.document.getState().undo();
      studio.document.getState().undo();
    });
    expect(job().page).toBeUndefined();
    expect(container.textContent).not.toContain('Nothing shows where');
    const choice = screen.getByRole('combobox', { name: 'Page shown' });
    fireEvent.change(choice, { target: { value: 'Row 1 of 3, tile 3 of 3' } });
    expect(screen.getByRole('img', { name: /page of row 1 of 3, tile 3 of 3/ })).toBeTruthy();
  });
});
