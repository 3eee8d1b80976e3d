/** The job sheet in a studio: names, units, errors, undo, remedies. */
import { act, screen, within } from '@testing-library/react';
import { beforeEach, describe, expect, it, vi } from 'vitest';
import { Docket } from '../../src/benches/desk/Docket.tsx';
import { FindingsPanel } from '../../src/benches/desk/FindingsPanel.tsx';
import { UndoRedo } from '../../src/benches/desk/UndoRedo.tsx';
import { useFindings } from '../../src/benches/desk/use-findings.ts';
import { lookKey } from '../../src/job/edits/edit.ts';
import { newJob } from '../../src/job/schema/job.ts';
import type { Studio } from '../../src/studio/studio.ts';
import { makeStudio } from '../studio/support.ts';
import type { User } from './in-studio.tsx';
import { renderIn } from './in-studio.tsx';

let studio: Studio;

const job = () => studio.document.getState().job;
const field = (name: string) => screen.getByRole('textbox', { name });
const type = async (user: User, name: string, text: string) => {
  await user.clear(field(name));
  await user.type(field(name), `${text}{Enter}`);
};

const Findings = () => <FindingsPanel found={useFindings()} />;

const setUp = () =>
  renderIn(
    studio,
    <>
      <UndoRedo />
      <Docket />
      <Findings />
    </>,
  ).user;

beforeEach(() => {
  studio = makeStudio();
});

describe('names', () => {
  it('are exactly those that studio and scripts agree on', () => {
    setUp();
    for (const name of [
      'Lens pitch',
      'Lens thickness',
      'Refractive index',
      'Dots across',
      'Dots along',
      'Print width',
      'Print height',
      'Viewing distance',
      'View slots',
    ])
      expect(field(name)).toBeVisible();
    const ribs = within(screen.getByRole('radiogroup', { name: 'Ribs run' }));
    expect(ribs.getByRole('radio', { name: 'Upright' })).toBeChecked();
    expect(ribs.getByRole('radio', { name: 'Lying' })).not.toBeChecked();
    const units = within(screen.getByRole('radiogroup', { name: 'Units' }));
    expect(units.getByRole('radio', { name: 'mm' })).toBeChecked();
    expect(units.getByRole('radio', { name: 'in' })).not.toBeChecked();
  });
});

describe('measures', () => {
  it('go into the job in millimetres however they are typed', async () => {
    const user = setUp();
    await type(user, 'Print width', '8"');
    await type(user, 'Print height', '25,4 cm');
    await type(user, 'Viewing distance', '1.2 m');
    await type(user, 'Dots across', '1440 dpi');
    expect(job().print).toEqual({ widthMm: 203.2, heightMm: 254, viewingDistanceMm: 1200 });
    expect(job().printer).toEqual({ carriageDpi: 1440, feedDpi: 720 });
  });

  it('are shown in the other unit at a press, and the job does not change', async () => {
    const user = setUp();
    const before = job();
    await user.click(screen.getByRole('radio', { name: 'in' }));
    expect(field('Print width')).toHaveValue('8');
    expect(field('Print height')).toHaveValue('10');
    await user.click(field('Print width'));
    await user.tab();
    expect(job()).toBe(before);
    await type(user, 'Print width', '6');
    expect(job().print.widthMm).toBeCloseTo(152.4, 9);
  });

  it('show the pitch in the unit it was last typed in', async () => {
    const user = setUp();
    expect(field('Lens pitch')).toHaveValue('60');
    await type(user, 'Lens pitch', '0.5 mm');
    expect(field('Lens pitch')).toHaveValue('0.5');
    await type(user, 'Lens pitch', '0.6');
    expect(job().lens.pitchMm).toBe(0.6);
    await type(user, 'Lens pitch', '40 lpi');
    expect(field('Lens pitch')).toHaveValue('40');
    expect(job().lens.pitchMm).toBeCloseTo(0.635, 12);
  });

  it('are refused next to their field, and the job keeps the last good one', async () => {
    const user = setUp();
    await type(user, 'View slots', '7.5');
    expect(field('View slots')).toBeInvalid();
    expect(field('View slots')).toHaveAccessibleDescription(/whole number/);
    await type(user, 'Dots across', '20');
    expect(field('Dots across')).toHaveAccessibleDescription(/at least 50/);
    await type(user, 'Dots across', '55');
    expect(field('Dots across')).toHaveAccessibleDescription(/one printed dot wide/);
    expect(job()).toEqual(newJob());
    expect(field('Print width')).toBeValid();
  });
});

describe('the printer', () => {
  it('keeps its own grid as the ribs are laid, and turns the page for them', async () => {
    const user = setUp();
    await user.click(screen.getByText('720 × 720 dpi, top edge first'));
    await type(user, 'Along the carriage', '1440');
    expect(field('Dots across')).toHaveValue('1440');
    await user.click(screen.getByRole('radio', { name: 'Lying' }));
    expect(field('Along the carriage')).toHaveValue('1440');
    expect(field('Along the feed')).toHaveValue('720');
    expect(field('Dots across')).toHaveValue('1440');
    expect(screen.getByText('1440 × 720 dpi, a side first')).toBeVisible();
    const fed = within(screen.getByRole('radiogroup', { name: 'Fed first' }));
    expect(fed.getByRole('radio', { name: 'Automatic' })).toBeChecked();
    await user.click(fed.getByRole('radio', { name: 'Top edge' }));
    expect(field('Dots across')).toHaveValue('720');
    expect(job().printer).toEqual({ carriageDpi: 1440, feedDpi: 720, fedFirst: 'top' });
    await user.click(fed.getByRole('radio', { name: 'Automatic' }));
    expect(job().printer).toEqual({ carriageDpi: 1440, feedDpi: 720 });
  });
});

describe('what follows', () => {
  it('stands on the docket with its relation behind it', async () => {
    const user = setUp();
    // Relation 2 at 400 mm with g₀ 0.506 mm by the bench of tests/golden: 60 / (1 + g₀ / 400) = 59.924.
    expect(screen.getByText('59.924 LPI · 0.4239 mm')).toBeVisible();
    // 8 in × 720 and 10 in × 720.
    expect(screen.getByText('5760 × 7200 dots')).toBeVisible();
    const relation = screen.getByText(/= p \(1 \+ g₀ \/ D\)/);
    expect(relation).not.toBeVisible();
    await user.click(screen.getByText('Woven pitch'));
    expect(relation).toBeVisible();
  });

  it('says nominal, proved once a strip was read, and nominal again for another lens', async () => {
    const user = setUp();
    expect(screen.getByText('nominal')).toBeVisible();
    act(
      () =>
        void studio.change('proved pitch', (current) => ({
          ...current,
          provedPitch: { viewingPitchMm: 0.424, readFromMm: 400 },
        })),
    );
    expect(screen.getByText('proved')).toBeVisible();
    await type(user, 'Lens pitch', '50 lpi');
    expect(screen.getByText('nominal')).toBeVisible();
  });

  it('takes the index of a material', async () => {
    const user = setUp();
    await user.selectOptions(screen.getByRole('combobox', { name: 'Material' }), 'PMMA');
    // Sultanova 2009, docs/optics.md.
    expect(field('Refractive index')).toHaveValue('1.4905');
    await type(user, 'Refractive index', '1.55');
    expect(screen.getByRole('combobox', { name: 'Material' })).toHaveDisplayValue('Other');
  });
});

describe('undo and redo', () => {
  it('name what they undo and do again', async () => {
    const user = setUp();
    expect(screen.getByRole('button', { name: 'Undo' })).toHaveAttribute('aria-disabled', 'true');
    await type(user, 'Lens pitch', '50');
    await user.click(screen.getByRole('radio', { name: 'Lying' }));
    await user.click(screen.getByRole('button', { name: 'Undo: ribs run upright → lying' }));
    expect(job().ribs).toBe('upright');
    await user.click(screen.getByRole('button', { name: 'Undo: lens pitch 60 → 50 LPI' }));
    expect(job().lens).toEqual(newJob().lens);
    await user.click(screen.getByRole('button', { name: 'Redo: lens pitch 60 → 50 LPI' }));
    expect(job().lens.pitchMm).toBeCloseTo(0.508, 12);
  });

  it('open the bench where it happened, and say what came back', async () => {
    const user = setUp();
    studio.view.setState({ lastBench: 'plan' });
    act(() => void studio.change('depth gain', (now) => ({ ...now, depthGain: 0.5 })));
    await type(user, 'Lens thickness', '0.82');
    studio.view.setState({ lastBench: 'mount' });
    location.hash = '#/mount';
    await user.click(screen.getByRole('button', { name: 'Undo: lens thickness 0.84 → 0.82 mm' }));
    // The job sheet is in view beside every bench.
    expect(location.hash).toBe('#/mount');
    await user.click(screen.getByRole('button', { name: 'Undo: depth gain 1 → 0.5' }));
    expect(location.hash).toBe('#/plan');
    expect(studio.work.getState().announced.said).toBe('Undone: depth gain 1 → 0.5.');
    location.hash = '';
  });

  it('count choosing and looking in a row as one step, and none where all is as before', () => {
    const { change, document } = studio;
    const steps = () => document.getState().past.length;
    const choose = (note: string) =>
      change('what it looks like', (now) => ({ ...now, name: note }), lookKey('symptoms'));
    vi.useFakeTimers();
    for (const note of ['one', 'two', 'three']) {
      choose(note);
      vi.advanceTimersByTime(60_000);
    }
    expect(steps()).toBe(1);
    choose(newJob().name);
    expect(steps()).toBe(0);
    vi.useRealTimers();
  });

  it('answer to the keys, but leave text that is being edited to the field', async () => {
    const user = setUp();
    await type(user, 'View slots', '10');
    await user.keyboard('{Control>}z{/Control}');
    expect(job().viewSlots).toBe(12);
    await user.keyboard('{Control>}{Shift>}Z{/Shift}{/Control}');
    expect(job().viewSlots).toBe(10);
    await user.keyboard('{Control>}z{/Control}{Control>}y{/Control}');
    expect(job().viewSlots).toBe(10);
    await user.clear(field('View slots'));
    await user.keyboard('{Control>}z{/Control}');
    expect(job().viewSlots).toBe(10);
  });
});

describe('findings', () => {
  it('carry their remedy out at a press, and that can be undone', async () => {
    const user = setUp();
    // Depth may share dots; pictures that follow each other lose by it.
    await user.click(screen.getByRole('radio', { name: 'Lying' }));
    await type(user, 'Dots across', '600');
    await user.click(screen.getByRole('button', { name: 'Set view slots to 10' }));
    expect(job().viewSlots).toBe(10);
    expect(screen.queryByRole('button', { name: 'Set view slots to 10' })).toBeNull();
    await user.click(screen.getByRole('button', { name: 'Undo: view slots 12 → 10' }));
    expect(job().viewSlots).toBe(12);
  });

  it('lead to the bench that can help', () => {
    setUp();
    expect(screen.getByRole('link', { name: 'Prove it with a strip' })).toHaveAttribute(
      'href',
      '#/calibrate',
    );
  });
});
