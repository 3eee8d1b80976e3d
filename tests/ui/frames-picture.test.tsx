import { screen } from '@testing-library/react';
import { beforeEach, describe, expect, test } from 'vitest';
import { PicturePanel } from '../../src/benches/frames/PicturePanel.tsx';
import { draggedShift } from '../../src/job/edits/shift.ts';
import { pictureArea } from '../../src/core/weave/picture-area.ts';
import { newJob } from '../../src/job/schema/job.ts';
import type { Studio } from '../../src/studio/studio.ts';
import { makeStudio } from '../studio/support.ts';
import { renderIn } from './in-studio.tsx';

let studio: Studio;
beforeEach(() => {
  studio = makeStudio();
});

/** The new job's print is 203.2 × 254 mm, a shape of 0.8. */
const lay = (widthPx: number, heightPx: number, sceneLinear = false) =>
  studio.document.getState().open({
    ...newJob(),
    frames: [
      {
        id: 'a',
        name: 'a.png',
        byteLength: 1,
        widthPx,
        heightPx,
        kind: 'PNG',
        sceneLinear,
        meanLight: 0.5,
      },
    ],
  });
const placement = () => studio.document.getState().job.placement;

describe('the picture on the print', () => {
  test('of the same shape has nothing to set', () => {
    lay(800, 1003);
    renderIn(studio, <PicturePanel />);
    expect(screen.getByText(/fit exactly/)).toBeInTheDocument();
    expect(screen.queryByRole('radiogroup', { name: 'Picture shape' })).toBeNull();
  });

  test('of another shape is cut or fitted, and shifts along the axis that has room', async () => {
    lay(1200, 1000);
    const { user } = renderIn(studio, <PicturePanel />);
    expect(screen.getByRole('slider', { name: 'Shift across' })).toBeInTheDocument();
    expect(screen.queryByRole('slider', { name: 'Shift down' })).toBeNull();
    await user.click(screen.getByRole('radio', { name: 'Fit whole' }));
    expect(placement().mode).toBe('fit');
    expect(screen.getByRole('slider', { name: 'Shift down' })).toBeInTheDocument();
    expect(screen.queryByRole('slider', { name: 'Shift across' })).toBeNull();
  });

  test('has an exposure for scene light alone', () => {
    lay(800, 1000);
    const { unmount } = renderIn(studio, <PicturePanel />);
    expect(screen.queryByRole('slider', { name: 'Exposure' })).toBeNull();
    unmount();
    lay(800, 1000, true);
    renderIn(studio, <PicturePanel />);
    expect(screen.getByRole('slider', { name: 'Exposure' })).toHaveAttribute(
      'aria-valuetext',
      '0.0 stops',
    );
  });

  test.each([
    [300, 'too few'],
    [600, 'enough'],
    [4000, 'more than any lens shows'],
  ])('with %d pixels across 480 ribs says %s', (widthPx, verdict) => {
    lay(widthPx, widthPx * 1.25);
    renderIn(studio, <PicturePanel />);
    expect(screen.getByText(/to each/)).toHaveTextContent(verdict);
  });
});

describe('dragging the edge of the print', () => {
  test('keeps it under the pointer when the frame is cut', () => {
    const frame = { width: 1200, height: 1000 };
    const before = pictureArea(frame.width, frame.height, 0.8, 'fill', 0.1, 0);
    const shift = draggedShift(0.1, 50, frame.width - before.width) ?? NaN;
    const after = pictureArea(frame.width, frame.height, 0.8, 'fill', shift, 0);
    expect(after.left - before.left).toBeCloseTo(50, 9);
  });

  test('moves the picture with the pointer when it is fitted', () => {
    const before = pictureArea(1200, 1000, 0.8, 'fit', 0, 0.1);
    const shift = draggedShift(0.1, 50, 1000 - before.height) ?? NaN;
    const after = pictureArea(1200, 1000, 0.8, 'fit', 0, shift);
    // The frame's top edge as seen from the print's.
    expect(-after.top - -before.top).toBeCloseTo(50, 9);
  });

  test('does nothing along an axis without room', () => {
    expect(draggedShift(0.5, 50, 0)).toBeUndefined();
  });
});
