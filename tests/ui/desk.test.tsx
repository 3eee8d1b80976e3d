/** The desk: benches by address, and the guard around them. */
import { act, screen, waitFor, within } from '@testing-library/react';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { BenchGuard } from '../../src/benches/desk/BenchGuard.tsx';
import { benches, benchFor } from '../../src/benches/desk/benches.ts';
import { Desk } from '../../src/benches/desk/Desk.tsx';
import type { Studio } from '../../src/studio/studio.ts';
import { makeStudio } from '../studio/support.ts';
import { renderIn } from './in-studio.tsx';

let studio: Studio;

beforeEach(() => {
  studio = makeStudio();
  // jsdom has neither.
  vi.stubGlobal('matchMedia', () => ({
    matches: false,
    addEventListener: () => undefined,
    removeEventListener: () => undefined,
  }));
  vi.stubGlobal('scrollTo', () => undefined);
});
afterEach(() => {
  vi.unstubAllGlobals();
  location.hash = '';
});

describe('addresses', () => {
  it('lead to the bench they name, else to the last one, else to Weave', () => {
    expect(benchFor('#/mount', 'plan').name).toBe('mount');
    expect(benchFor('', 'plan').name).toBe('plan');
    expect(benchFor('#/nowhere', '').name).toBe('weave');
  });

  it('open benches in any order, marked, titled and with the focus on their name', async () => {
    location.hash = '#/mend';
    renderIn(studio, <Desk />);
    expect(screen.getByRole('link', { name: 'Mend' })).toHaveAttribute('aria-current', 'page');
    expect(
      await screen.findByRole(
        'heading',
        { name: 'What do you see on your print?' },
        // A bench is loaded when it is opened.
        { timeout: 120_000 },
      ),
    ).toBeVisible();
    expect(document.title).toBe('Mend · Untitled print · Tiltloom');
    expect(document.body).toHaveFocus();

    act(() => {
      location.hash = '#/mount';
    });
    const heading = await screen.findByRole('heading', { level: 1, name: 'Mount' });
    await waitFor(() => expect(heading).toHaveFocus());
    expect(screen.getByRole('link', { name: 'Mend' })).not.toHaveAttribute('aria-current');
    expect(
      await screen.findByRole('heading', { name: 'Checklist' }, { timeout: 120_000 }),
    ).toBeVisible();
    expect(studio.view.getState().lastBench).toBe('mount');
  });

  it('stand in the order of the craft', () => {
    expect(benches.map(({ label }) => label).join(' ')).toBe(
      'Plan Shoot Calibrate Frames Weave Mount Mend Workshop',
    );
  });
});

describe('the guard', () => {
  it('says what happened, keeps the rest standing, and opens the bench again', async () => {
    const quiet = vi.spyOn(console, 'error').mockImplementation(() => undefined);
    let broken = true;
    const Bench = () => {
      if (broken) throw new Error('the loom jammed');
      return <p>Woven</p>;
    };
    const { user } = renderIn(
      studio,
      <BenchGuard benchLabel="Weave">
        <Bench />
      </BenchGuard>,
    );
    expect(screen.getByRole('alert')).toHaveTextContent(/Weave bench has stopped.*the loom jammed/);
    broken = false;
    await user.click(screen.getByRole('button', { name: 'Open it again' }));
    expect(screen.getByText('Woven')).toBeVisible();
    quiet.mockRestore();
  });
});

describe('the way', () => {
  const line = () => screen.getByRole('region', { name: 'The way' });

  it('says what comes next and why, leads there, and is not offered where the person is', async () => {
    location.hash = '#/plan';
    renderIn(studio, <Desk />);
    await within(line()).findByText(/Add the frames/);
    expect(within(line()).getByRole('status')).toHaveTextContent(
      /^Next: Add the frames\..*cameras/,
    );
    expect(within(line()).getByRole('link', { name: 'Go to Frames' })).toHaveAttribute(
      'href',
      '#/frames',
    );
    act(() => {
      location.hash = '#/frames';
      dispatchEvent(new HashChangeEvent('hashchange'));
    });
    expect(within(line()).queryByRole('link')).toBeNull();
  });

  it('is folded away, and stays so', async () => {
    const { user } = renderIn(studio, <Desk />);
    await user.click(within(line()).getByRole('button', { name: 'Fold away' }));
    expect(within(line()).queryByRole('status')).toBeNull();
    const button = within(line()).getByRole('button', { name: 'Show what is next' });
    expect(button).toHaveFocus();
    expect(button).toHaveAttribute('aria-expanded', 'false');
    expect(makeStudio().view.getState().wayFolded).toBe(true);
    await user.click(button);
    expect(await within(line()).findByText(/Add the frames/)).toBeVisible();
  });
});
