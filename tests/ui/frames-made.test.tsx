/** Where made frames were filled, on the Frames bench: what is said when it was not kept. */
import { screen, within } from '@testing-library/react';
import { beforeEach, describe, expect, it } from 'vitest';
import { PicturePanel } from '../../src/benches/frames/PicturePanel.tsx';
import type { Made } from '../../src/job/schema/made.ts';
import { newJob } from '../../src/job/schema/job.ts';
import type { Studio } from '../../src/studio/studio.ts';
import { makeStudio } from '../studio/support.ts';
import { renderIn } from './in-studio.tsx';

let studio: Studio;
beforeEach(() => {
  studio = makeStudio();
});

const made = (invented: number, more: Partial<Made> = {}): Made => ({
  ...{ from: ['pier.png', 'pier_z.png'], way: 'depth', place: 1, count: 3, invented },
  ...more,
});
const lay = (...all: (Made | undefined)[]) =>
  studio.document.getState().open({
    ...newJob(),
    frames: all.map((one, index) => ({
      id: `frame-${index}`,
      name: `pier ${index + 1}`,
      byteLength: 1,
      widthPx: 80,
      heightPx: 100,
      kind: 'PNG',
      sceneLinear: false,
      meanLight: 0.5,
      ...(one === undefined ? {} : { made: one }),
    })),
  });
const region = () =>
  screen.getByRole('region', { name: 'What was filled in frames that were made' });
const toggle = () => within(region()).getByRole('button', { name: 'Show filled places' });

describe('frames that were made', () => {
  it('have no place among frames that were all rendered', () => {
    lay(undefined, undefined);
    renderIn(studio, <PicturePanel />);
    expect(screen.queryByRole('region', { name: /filled/ })).toBeNull();
  });

  it('of before their places were kept say so, with the share, and have nothing to show', async () => {
    lay(undefined, made(0.031), made(0, { way: 'between' }));
    const { user } = renderIn(studio, <PicturePanel />);
    expect(
      screen.getByText('Where this frame was filled was not kept; the share is 3.1 %.'),
    ).toBeVisible();
    expect(toggle()).toHaveAttribute('aria-disabled', 'true');
    expect(toggle()).toHaveAttribute('aria-pressed', 'false');
    const chooser = within(region()).getByRole('combobox', { name: 'Made frame' });
    expect([...chooser.querySelectorAll('option')].map(({ text }) => text)).toEqual([
      '2 · pier 2',
      '3 · pier 3',
    ]);
    await user.selectOptions(chooser, '3 · pier 3');
    expect(
      screen.getByText('Where this frame was filled was not kept; the share is 0 %.'),
    ).toBeVisible();
  });

  it('whose places the browser has lost say the same', async () => {
    lay(made(0.0004, { holesId: 'gone-from-the-browser' }));
    renderIn(studio, <PicturePanel />);
    expect(
      await screen.findByText(
        'Where this frame was filled was not kept; the share is under 0.1 %.',
      ),
    ).toBeVisible();
  });
});
