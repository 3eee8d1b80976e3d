/** The panel that makes views, in a studio: choices, what is refused, lying ribs, gaps. */
import { act, screen } from '@testing-library/react';
import { beforeEach, describe, expect, it } from 'vitest';
import { SynthPanel } from '../../src/benches/frames/synth/SynthPanel.tsx';
import { choicesOf } from '../../src/studio/frames/made/scene.ts';

import { newJob } from '../../src/job/schema/job.ts';
import { lenticulesAt } from '../../src/job/facts/synth.ts';
import type { Studio } from '../../src/studio/studio.ts';
import { makeStudio } from '../studio/support.ts';
import type { User } from './in-studio.tsx';
import { renderIn } from './in-studio.tsx';

let studio: Studio;

const lay = (...names: string[]) =>
  studio.document.getState().open({
    ...newJob(),
    depthGain: 0.03,
    rig: { near: 30, far: 90 },
    frames: names.map((name) => ({
      id: name,
      name,
      byteLength: 1,
      widthPx: 80,
      heightPx: 100,
      kind: 'PNG',
      sceneLinear: false,
      meanLight: 0.5,
    })),
  });
const field = (name: string) => screen.getByRole('textbox', { name });
const button = (name: string) => screen.getByRole('button', { name });
const chooser = (name: string) => screen.getByRole('combobox', { name });
const type = async (user: User, name: string, text: string) => {
  await user.clear(field(name));
  await user.type(field(name), `${text}{Enter}`);
};
const setUp = () => renderIn(studio, <SynthPanel />).user;

beforeEach(() => {
  studio = makeStudio();
  lay('pier_1.png', 'pier_2.png', 'pier_4.png');
});

describe('from one picture and its depth map', () => {
  it('waits for the map, and is prefilled from the rig', async () => {
    const user = setUp();
    expect(button('Make views')).toHaveAttribute('aria-disabled', 'true');
    expect(screen.getByText('Choose the depth map of the picture first.')).toBeVisible();
    expect(field('Nearest depth')).toHaveValue('-30');
    expect(field('Farthest depth')).toHaveValue('90');
    expect(field('Depth gain of the views')).toHaveValue('0.03');
    expect(field('Views to make')).toHaveValue('12');
    await user.upload(
      screen.getByLabelText('Depth map'),
      new File(['x'], 'pier_z.png', { type: 'image/png' }),
    );
    expect(screen.getByText('pier_z.png')).toBeVisible();
    expect(button('Make views')).not.toHaveAttribute('aria-disabled');
    expect(screen.getByText(/^Makes 12 from pier_2\.png/)).toBeVisible();
    // Seen from one of the views, the picture is that view and need not be made.
    await user.selectOptions(chooser('The picture is seen from'), 'View 6 of 12');
    expect(screen.getByText(/^Makes 11 from pier_2\.png/)).toBeVisible();
    await user.selectOptions(chooser('Picture'), '3 · pier_4.png');
    expect(screen.getByText(/^Makes 11 from pier_4\.png/)).toBeVisible();
  });

  it('says what is wrong with the ends, and keeps what was typed', async () => {
    const user = setUp();
    act(() => studio.made.set({ depth: { key: 'z', name: 'z.png', file: new Blob([]) } }));
    await type(user, 'Nearest depth', '200');
    expect(screen.getByText(/nearest depth must be below the farthest/)).toBeVisible();
    expect(button('Make views')).toHaveAttribute('aria-disabled', 'true');
    expect(field('Nearest depth')).toHaveValue('200');
    await type(user, 'Nearest depth', '-500');
    expect(screen.getByText(/lies behind the cameras/)).toBeVisible();
    await type(user, 'Nearest depth', '-30');
    await type(user, 'Views to make', '1');
    expect(screen.getByText(/whole number from 2 to 200/)).toBeVisible();
  });

  it('offers the gain at which all is sharp, and the way back to the rig', async () => {
    const user = setUp();
    await type(user, 'Depth gain of the views', '1');
    expect(screen.getByText(/^Parts will break up\./)).toBeVisible();
    await user.click(button('Take that gain'));
    // Relation 6: of a deeper end that moves one rib per view at the most, and hardly less.
    const choices = choicesOf(studio.document.getState().job, studio.made.store.getState());
    const moves = [-30, 90].map((z) =>
      Math.abs(lenticulesAt(studio.document.getState().job, choices, z)),
    );
    expect(Math.max(...moves)).toBeLessThanOrEqual(1);
    expect(Math.max(...moves)).toBeGreaterThan(0.98);
    expect(screen.queryByText(/^Parts will/)).toBeNull();
    await user.click(button('As the rig says'));
    expect(field('Depth gain of the views')).toHaveValue('0.03');
  });

  it('asks for no ends where the map holds depths', async () => {
    const user = setUp();
    await user.selectOptions(chooser('Grey means'), 'Depth from camera');
    expect(screen.queryByRole('textbox', { name: 'Nearest depth' })).toBeNull();
    expect(screen.getByText(/distances from the camera along its axis/)).toBeVisible();
  });

  it('has nothing to make for lying ribs, and says why', () => {
    act(() => void studio.change('ribs', (job) => ({ ...job, ribs: 'lying' })));
    setUp();
    expect(screen.getByText(/^Lying ribs show nothing of depth/)).toBeVisible();
    expect(screen.queryByRole('button', { name: 'Make views' })).toBeNull();
  });

  it('tells a fault in its own words', () => {
    act(() => studio.made.set({ stage: { kind: 'failed', message: '"z.png" is 64 × 48 pixels' } }));
    setUp();
    expect(screen.getByRole('alert')).toHaveTextContent('"z.png" is 64 × 48 pixels');
  });
});

describe('between frames', () => {
  it('begins at the gap in the numbers, with as many as are missing', () => {
    lay('pier_1.png', 'pier_2.png', 'pier_3.png', 'pier_6.png');
    setUp();
    expect(chooser('Between')).toHaveValue('pier_3.png');
    expect(field('Frames between')).toHaveValue('2');
  });

  it('takes any other pair, and says that one frame is not enough', async () => {
    const user = setUp();
    await user.selectOptions(chooser('Between'), 'pier_1.png and pier_2.png');
    expect(field('Frames between')).toHaveValue('1');
    act(() => lay('pier_1.png'));
    expect(screen.getByText('It takes two frames to make one between them.')).toBeVisible();
  });
});
