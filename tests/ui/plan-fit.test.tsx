/** Fit on the Plan bench in a studio: advice taken, pairs sorted, filtered, added to and used. */
import { screen, within } from '@testing-library/react';
import { beforeEach, describe, expect, it } from 'vitest';
import { FitPanel } from '../../src/benches/plan/fit/FitPanel.tsx';
import type { Job } from '../../src/job/schema/job.ts';
import { newJob } from '../../src/job/schema/job.ts';
import { starterShelves } from '../../src/materials/starters.ts';
import type { Studio } from '../../src/studio/studio.ts';
import { makeStudio } from '../studio/support.ts';
import { renderIn } from './in-studio.tsx';

let studio: Studio;

const job = () => studio.document.getState().job;
const button = (name: string | RegExp) => screen.getByRole('button', { name });
const table = () => screen.getByRole('table', { name: 'Lenses and printers' });
const head = (name: RegExp) => within(table()).getByRole('columnheader', { name });
/** The cells of one column, top to bottom; 0 is the lens. */
const column = (place: number) =>
  [...table().querySelectorAll('tbody tr')].map((row) =>
    parseFloat(row.children[place]?.textContent ?? ''),
  );

const setUp = (change: Partial<Job> = {}) => {
  studio.document.getState().open({ ...newJob(), ...change });
  return renderIn(studio, <FitPanel />).user;
};

beforeEach(() => {
  studio = makeStudio();
});

describe('the figures', () => {
  it('give dots, ceiling, whole frames and what is left over', () => {
    setUp({ printer: { carriageDpi: 800, feedDpi: 800 } });
    const figure = (label: string) =>
      screen.getByText(label, { selector: 'summary span' }).closest('details');
    // 800 / 60 = 13⅓; seen from 400 mm a rib is 1 + 0.84 / 1.5685 / 400 times as wide (relation 2).
    expect(figure('Dots per nominal rib')).toHaveTextContent('13.33');
    expect(figure('Dots under a rib')).toHaveTextContent('13.35');
    expect(figure('Whole frames')).toHaveTextContent('13');
    expect(figure('Left over')).toHaveTextContent('0.35 of a dot, 2.6 %');
  });

  it('say so where no rib can stand, and still show the table', () => {
    setUp({ lens: { pitchMm: 1, thicknessMm: 0.3, index: 1.57 } });
    expect(screen.getByText('No rib of these measures can stand')).toBeVisible();
    expect(table()).toBeVisible();
  });
});

describe('what mixes', () => {
  it('is read view by view, and as a table whose rows are whole', async () => {
    const user = setUp();
    const slider = screen.getByRole('slider', { name: 'Wanted view' });
    slider.focus();
    expect(slider).toHaveAttribute(
      'aria-valuetext',
      expect.stringMatching(/^7 of 12: \d+ % its own$/),
    );
    expect(screen.getByText(/^Before view 7 an eye sees \d+ % slot 7,/)).toBeVisible();
    await user.click(screen.getByText('What mixes, in figures', { selector: 'summary' }));
    const rows = within(screen.getByRole('table', { name: 'What mixes, in figures' }))
      .getAllByRole('row')
      .slice(1);
    expect(rows).toHaveLength(12);
    for (const row of rows) {
      const shares = within(row)
        .getAllByRole('cell')
        .map((cell) => Number(cell.textContent));
      expect(shares).toHaveLength(12);
      // Twelve figures rounded to a tenth of a per cent.
      expect(Math.abs(shares.reduce((a, b) => a + b) - 100)).toBeLessThan(0.6);
    }
  });

  it('keeps to five columns for forty slots', async () => {
    const user = setUp({ viewSlots: 40 });
    await user.click(screen.getByText('What mixes, in figures', { selector: 'summary' }));
    const figures = screen.getByRole('table', { name: 'What mixes, in figures' });
    expect(within(figures).getAllByRole('columnheader')).toHaveLength(5);
    expect(within(figures).getAllByRole('row')).toHaveLength(41);
  });
});

describe('the advice', () => {
  it('sets the view slots, says what it did, and puts them back', async () => {
    const user = setUp({ viewSlots: 4 });
    await user.click(button('Set view slots to 12 for flips'));
    expect(job().viewSlots).toBe(12);
    expect(screen.getByText('They were 4.')).toBeVisible();
    await user.click(button('Put it back'));
    expect(job().viewSlots).toBe(4);
    expect(screen.queryByText('They were 4.')).toBeNull();
  });
});

describe('the table of pairs', () => {
  it('shows the lenses that suit the printer, each with a dot for the frames wanted', async () => {
    const user = setUp();
    expect(new Set(column(1))).toEqual(new Set([720]));
    expect(Math.min(...column(3))).toBeGreaterThanOrEqual(6);
    // 720 / 75 = 9.6 leaves six tenths over.
    expect(column(0)).not.toContain(75);
    expect(screen.getByText(/^Your printer suits lenses of 10, .* and 120 LPI\.$/)).toBeVisible();
    const wanted = screen.getByRole('textbox', { name: 'Frames wanted' });
    await user.clear(wanted);
    await user.type(wanted, '12{Enter}');
    expect(screen.getByText(/ and 60 LPI\.$/)).toBeVisible();
    await user.clear(wanted);
    await user.type(wanted, '1{Enter}');
    expect(wanted).toHaveAccessibleDescription(/whole number from 2 to 200/);
  });

  it('shows the printers that suit the lens', async () => {
    const user = setUp();
    await user.click(screen.getByRole('radio', { name: 'Printers that suit my lens' }));
    expect(new Set(column(0))).toEqual(new Set([60]));
    // All eight are whole multiples of 60; under 300 dots there are but five, and 360 has six.
    expect(column(1)).toEqual([360, 600, 720, 1200, 1440, 2400, 2880]);
  });

  it('sorts by any column, and the other way when asked again', async () => {
    const user = setUp();
    expect(head(/^Lens/)).toHaveAttribute('aria-sort', 'ascending');
    for (const [place, name] of [
      [2, /^Dots/],
      [3, /^Whole/],
      [4, /^Left over/],
      [5, /^Lost/],
      [7, /^Ribs/],
    ] as const) {
      within(head(name)).getByRole('button').focus();
      await user.keyboard('{Enter}');
      expect(head(name)).toHaveAttribute('aria-sort', 'ascending');
      const rising = column(place);
      expect(rising).toEqual([...rising].sort((a, b) => a - b));
      await user.keyboard('{Enter}');
      expect(head(name)).toHaveAttribute('aria-sort', 'descending');
      expect(column(place)).toEqual([...rising].reverse());
    }
    expect(head(/^Lens/)).not.toHaveAttribute('aria-sort');
  });

  it('marks the person’s own pair in words, and keeps it though it does not suit', () => {
    setUp({ printer: { carriageDpi: 300, feedDpi: 300 } });
    const own = within(table()).getByRole('row', { name: /your pair/ });
    expect(own).toHaveTextContent(/^60your pair3005/);
    expect(within(own).getByRole('button', { name: 'In use' })).toHaveAttribute(
      'aria-disabled',
      'true',
    );
  });

  it('takes own values in any unit, refuses what cannot be, remembers and lets go of them', async () => {
    const user = setUp();
    const lens = screen.getByRole('textbox', { name: 'Another lens pitch' });
    await user.type(lens, '60{Enter}');
    expect(lens).toHaveAccessibleDescription(/60 is in the table already\./);
    await user.clear(lens);
    await user.type(lens, '9 mm{Enter}');
    expect(lens).toHaveAccessibleDescription(/from 5\.08 to 508 LPI/);
    await user.clear(lens);
    await user.type(lens, '0.635 mm{Enter}');
    // 25.4 / 0.635 = 40 is listed.
    expect(lens).toHaveAccessibleDescription(/40 is in the table already\./);
    await user.clear(lens);
    await user.type(lens, '72 lpi{Enter}');
    expect(lens).toHaveValue('');
    expect(column(0)).toContain(72);
    expect(studio.view.getState().ownLensCounts).toEqual([72]);
    await user.click(button('Take out 72 LPI'));
    expect(column(0)).not.toContain(72);
  });

  it('uses a pair: thickness in proportion, what was of the old lens let go, all undone at once', async () => {
    const start = newJob();
    const user = setUp({
      lens: { ...start.lens, radiusMm: 0.31, supplierAngleDeg: 44 },
      slotsByHand: Array.from({ length: 12 }, () => ''),
    });
    const before = job();
    expect(
      screen.getByText(/the rib radius, the supplier’s angle of the old one let go/),
    ).toBeVisible();
    await user.click(button('Use this pair, 40 LPI over 720 dpi'));
    // 0.84 × 60 / 40 = 1.26; 720 / 40 = 18.
    expect(job().lens).toEqual({ pitchMm: 25.4 / 40, thicknessMm: 1.26, index: 1.5685 });
    expect(job().printer).toEqual({ carriageDpi: 720, feedDpi: 720 });
    expect(job().viewSlots).toBe(18);
    expect(screen.getByText(/Lens thickness is 1\.26 mm, in proportion/)).toBeVisible();
    expect(
      screen.getByText(
        /Let go, .* the rib radius, the supplier’s angle, the slots filled by hand\./,
      ),
    ).toBeVisible();
    await user.click(button('Put it back'));
    expect(job()).toEqual(before);
  });
});

it('lenses on the shelves are in the table', async () => {
  studio.shelves.getState().open({
    ...starterShelves(),
    lenses: [{ ...starterShelves().lenses[0]!, id: 'odd', pitchMm: 25.4 / 48 }],
  });
  const { user } = renderIn(studio, <FitPanel />);
  await user.click(screen.getByRole('radio', { name: /All pairs/ }));
  expect(column(0)).toContain(48);
});
