/** The page's fields and drawing in a studio: switch, place by number and keys, undo, refusal. */
import { fireEvent, screen } from '@testing-library/react';
import { beforeEach, describe, expect, it, vi } from 'vitest';
import { PagePanel } from '../../src/benches/mount/page/PagePanel.tsx';
import { newJob } from '../../src/job/schema/job.ts';
import { setPage } from '../../src/job/facts/page.ts';
import type { Studio } from '../../src/studio/studio.ts';
import { makeStudio } from '../studio/support.ts';
import { renderIn } from './in-studio.tsx';

let studio: Studio;

const job = () => studio.document.getState().job;
const field = (name: string) => screen.getByRole('textbox', { name });
const type = (name: string, text: string) => {
  fireEvent.change(field(name), { target: { value: text } });
  fireEvent.keyDown(field(name), { key: 'Enter' });
};

beforeEach(() => {
  studio = makeStudio();
  // jsdom paints nothing.
  vi.spyOn(HTMLCanvasElement.prototype, 'getContext').mockReturnValue(null);
});

describe('the page', () => {
  it('is off for a job that never had one, and switching it on is a step to undo', async () => {
    const { user } = renderIn(studio, <PagePanel />);
    expect(screen.queryByRole('slider', { name: 'Print on the paper' })).toBeNull();
    await user.click(screen.getByRole('radio', { name: 'A whole page' }));
    expect(job().page?.on).toBe(true);
    studio.document.getState().undo();
    expect(job().page).toBeUndefined();
  });

  it('is placed by number and by keys alike', () => {
    studio.document.getState().open(setPage(newJob(), { on: true }));
    renderIn(studio, <PagePanel />);
    type('Print from the left', '30');
    type('Print from the top', '4 cm');
    expect(job().page?.place).toEqual({ leftMm: 30, topMm: 40 });
    const print = screen.getByRole('slider', { name: 'Print on the paper' });
    fireEvent.keyDown(print, { key: 'ArrowRight' });
    fireEvent.keyDown(print, { key: 'ArrowUp', shiftKey: true });
    expect(job().page?.place).toEqual({ leftMm: 31, topMm: 30 });
    expect(print.getAttribute('aria-valuetext')).toMatch(
      /31.* mm from the left, 30.* mm from the top/,
    );
  });

  it('has the print side, whole page or not, as one step to undo by its name', () => {
    studio.document.getState().open(newJob());
    renderIn(studio, <PagePanel />);
    fireEvent.click(screen.getByRole('radio', { name: 'Mirrored: film laid from behind' }));
    expect(job().page).toMatchObject({ on: false, mirrored: true });
    expect(screen.getByText(/add its thickness to the lens thickness/)).toBeTruthy();
    expect(studio.document.getState().past.at(-1)?.label).toBe('print side');
    fireEvent.click(screen.getByRole('radio', { name: 'Front: paper under the lens' }));
    expect(job().page).not.toHaveProperty('mirrored');
  });

  it('refuses a bleed that no trimmer needs, and says why', () => {
    studio.document.getState().open(setPage(newJob(), { on: true, bleedMm: 3 }));
    renderIn(studio, <PagePanel />);
    type('Bleed', '80');
    expect(screen.getByText(/Bleed must be at most 50 mm/)).toBeTruthy();
    expect(job().page?.bleedMm).toBe(3);
  });

  it('says how many stripes a turned lens shows, and how far its end must go', () => {
    studio.document.getState().open(setPage(newJob(), { on: true }));
    renderIn(studio, <PagePanel />);
    fireEvent.change(screen.getByRole('slider', { name: 'Lens turned' }), {
      target: { value: '0.5' },
    });
    // 254 mm × tan 0.5° = 2.2166 mm, over ribs of 25.4 / 60 mm: 5.236 (worked by hand).
    expect(screen.getByText('5.24')).toBeTruthy();
    expect(screen.getByText(/^2\.2\d* mm$/)).toBeTruthy();
  });
});
