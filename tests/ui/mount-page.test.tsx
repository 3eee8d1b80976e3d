// @vitest-environment jsdom
/** The page's fields and drawing over the real stores: switch, place by number and keys, undo, refusal. */
import { fireEvent, render, screen } from '@testing-library/react';
import { userEvent } from '@testing-library/user-event';
import { beforeEach, describe, expect, it, vi } from 'vitest';
import { PagePanel } from '../../src/benches/mount/page/PagePanel.tsx';
import { newJob } from '../../src/job/schema/job.ts';
import { setPage } from '../../src/job/facts/page.ts';
import { documentStore } from '../../src/state/document.ts';
import { viewStore } from '../../src/state/view.ts';

const job = () => documentStore.getState().job;
const field = (name: string) => screen.getByRole('textbox', { name });
const type = (name: string, text: string) => {
  fireEvent.change(field(name), { target: { value: text } });
  fireEvent.keyDown(field(name), { key: 'Enter' });
};

beforeEach(() => {
  // jsdom paints nothing.
  vi.spyOn(HTMLCanvasElement.prototype, 'getContext').mockReturnValue(null);
  documentStore.getState().open(newJob());
  viewStore.getState().set({ units: 'mm' });
});

describe('the page', () => {
  it('is off for a job that never had one, and switching it on is a step to undo', async () => {
    render(<PagePanel />);
    expect(screen.queryByRole('slider', { name: 'Print on the paper' })).toBeNull();
    await userEvent.setup().click(screen.getByRole('radio', { name: 'A whole page' }));
    expect(job().page?.on).toBe(true);
    documentStore.getState().undo();
    expect(job().page).toBeUndefined();
  });

  it('is placed by number and by keys alike', () => {
    documentStore.getState().open(setPage(newJob(), { on: true }));
    render(<PagePanel />);
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

  it('refuses a bleed that no trimmer needs, and says why', () => {
    documentStore.getState().open(setPage(newJob(), { on: true, bleedMm: 3 }));
    render(<PagePanel />);
    type('Bleed', '80');
    expect(screen.getByText(/Bleed must be at most 50 mm/)).toBeTruthy();
    expect(job().page?.bleedMm).toBe(3);
  });

  it('says how many stripes a turned lens shows, and how far its end must go', () => {
    documentStore.getState().open(setPage(newJob(), { on: true }));
    render(<PagePanel />);
    fireEvent.change(screen.getByRole('slider', { name: 'Lens turned' }), {
      target: { value: '0.5' },
    });
    // 254 mm × tan 0.5° = 2.2166 mm, over ribs of 25.4 / 60 mm: 5.236 (worked by hand).
    expect(screen.getByText('5.24')).toBeTruthy();
    expect(screen.getByText(/^2\.2\d* mm$/)).toBeTruthy();
  });
});
