/** The Shoot bench in a studio: fields, grips by keyboard, lying ribs, the tables' "Use". */
import { act, fireEvent, screen } from '@testing-library/react';
import { beforeEach, describe, expect, it } from 'vitest';
import Shoot from '../../src/benches/shoot/index.tsx';
import { newJob } from '../../src/job/schema/job.ts';
import { keyDistanceOf, keyWidthOf } from '../../src/job/facts/rig.ts';
import type { Studio } from '../../src/studio/studio.ts';
import { makeStudio } from '../studio/support.ts';
import type { User } from './in-studio.tsx';
import { renderIn } from './in-studio.tsx';

let studio: Studio;

const state = () => studio.document.getState();
const job = () => state().job;
const field = (name: string) => screen.getByRole('textbox', { name });
const type = async (user: User, name: string, text: string) => {
  await user.clear(field(name));
  await user.type(field(name), `${text}{Enter}`);
};
const setUp = () => renderIn(studio, <Shoot />).user;

beforeEach(() => {
  studio = makeStudio();
  studio.view.getState().set({ partsShown: { shoot: 'all' } });
  state().open({ ...newJob(), depthGain: 0.05 });
});

describe('the rig’s fields', () => {
  it('take the scene’s own units, or any other typed', async () => {
    const user = setUp();
    await user.selectOptions(screen.getByRole('combobox', { name: 'Scene units' }), 'm');
    await type(user, 'Width at the key plane', '4');
    expect(job().rig).toMatchObject({ unit: 'm', keyWidth: 4 });
    // 400 mm from a print 203.2 mm wide: the same angle.
    expect(keyDistanceOf(job())).toBeCloseTo((4 * 400) / 203.2, 9);
    await type(user, 'Farthest thing', '150 cm');
    expect(job().rig?.far).toBeCloseTo(1.5, 9);
  });

  it('refuse what cannot be, and keep what was there', async () => {
    const user = setUp();
    await type(user, 'Width at the key plane', '-3');
    expect(screen.getByText(/Width at the key plane must be at least/)).toBeVisible();
    expect(job().rig).toBeUndefined();
  });

  it('a lens at hand decides where the cameras stand', async () => {
    const user = setUp();
    await user.click(screen.getByRole('radio', { name: 'By my camera’s lens' }));
    await type(user, 'Focal length', '50');
    await type(user, 'Width at the key plane', '360');
    // Similar triangles: 50 mm on 36 mm sees 360 at 500.
    expect(keyDistanceOf(job())).toBeCloseTo(500, 9);
  });
});

describe('the grips', () => {
  const grip = (name: RegExp) => screen.getByRole('slider', { name });

  it('the key plane moves by the keyboard while cameras and things stay', () => {
    state().open({ ...newJob(), rig: { near: 40, far: 100 } });
    setUp();
    const farthest = keyDistanceOf(job()) + 100;
    fireEvent.keyDown(grip(/^Key plane/), { key: 'PageUp' });
    fireEvent.keyDown(grip(/^Key plane/), { key: 'ArrowUp' });
    expect(keyDistanceOf(job())).toBeCloseTo(400 * 1.1 * 1.01, 4);
    expect(keyDistanceOf(job()) + (job().rig?.far ?? 0)).toBeCloseTo(farthest, 4);
    expect(keyWidthOf(job()) / keyDistanceOf(job())).toBeCloseTo(203.2 / 400, 7);
    expect(grip(/^Key plane/)).toHaveAttribute(
      'aria-valuetext',
      expect.stringMatching(/^Key plane 444\.4 mm from the cameras/),
    );
    act(() => state().undo());
    expect(keyDistanceOf(job())).toBeCloseTo(400, 9);
  });

  it('the gain’s grip keeps clear of the key plane’s line and grip, at any gain', () => {
    setUp();
    for (const depthGain of [1, 0.3, 0.1, 0.05, 0.03]) {
      act(() => state().open({ ...newJob(), depthGain }));
      const [key, gain] = [/^Key plane/, /^Depth gain/].map((name) => {
        const rect = grip(name).querySelector('rect');
        const [top, height] = ['y', 'height'].map((side) => Number(rect?.getAttribute(side)));
        return { top: top as number, bottom: (top as number) + (height as number) };
      });
      // The key plane's grip sits on its line, and as high as the strip that takes hold of it.
      expect(gain?.top).toBeGreaterThan(key?.bottom as number);
    }
  });

  it('the gain rises and falls, and the sharp range says so', () => {
    setUp();
    const before = grip(/^Depth gain/).getAttribute('aria-valuetext');
    fireEvent.keyDown(grip(/^Depth gain/), { key: 'ArrowUp' });
    expect(job().depthGain).toBeGreaterThan(0.05);
    expect(grip(/^Depth gain/).getAttribute('aria-valuetext')).not.toBe(before);
    fireEvent.keyDown(grip(/^Depth gain/), { key: 'ArrowDown' });
    fireEvent.keyDown(grip(/^Depth gain/), { key: 'ArrowDown' });
    expect(job().depthGain).toBeLessThan(0.05);
  });
});

describe('advice', () => {
  it('lying ribs: no parallax to have, and what to make instead', async () => {
    state().open({ ...newJob(), ribs: 'lying' });
    const user = setUp();
    expect(screen.getByText('Lying ribs have no parallax to show')).toBeVisible();
    expect(screen.queryByRole('slider')).toBeNull();
    await user.click(screen.getByRole('button', { name: 'Turn the ribs upright' }));
    expect(job().ribs).toBe('upright');
  });

  it('a scene that is too deep is told, with the gain that fits', async () => {
    state().open({ ...newJob(), depthGain: 1, rig: { far: 200 } });
    const user = setUp();
    await user.click(screen.getByRole('button', { name: /^Set depth gain to/ }));
    expect(job().depthGain).toBeLessThan(1);
    expect(screen.queryByText('The scene reaches beyond the sharp range')).toBeNull();
  });

  it('the tables’ “Use” plans fewer views or a smaller frame', async () => {
    const user = setUp();
    await type(user, 'Hours for one frame', '2');
    await user.click(screen.getByRole('button', { name: 'Use 6 views' }));
    expect(job().viewSlots).toBe(6);
    // 203.2 mm of 60 to the inch: 480 lenticules.
    await user.click(screen.getByRole('button', { name: /^Use 480 × 600 px/ }));
    expect(job().rig?.frameWidthPx).toBe(480);
    await type(user, 'Hours for one frame', '');
    expect(job().rig?.frameHours).toBeUndefined();
  });
});
