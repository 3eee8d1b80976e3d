/** What is said of pictures of other shapes, and of placed ones that leave paper bare. */
import { describe, expect, test } from 'vitest';
import { arrivalFindings } from '../../../src/job/findings/arrivals.ts';
import { bareFinding } from '../../../src/job/findings/place.ts';
import { frameFindings } from '../../../src/job/findings/frames.ts';
import type { Frame, Job } from '../../../src/job/schema/job.ts';
import { newJob } from '../../../src/job/schema/job.ts';

const frameOf = (
  id: string,
  size: readonly [number, number],
  more: Partial<Frame> = {},
): Frame => ({
  id,
  name: `${id}.jpg`,
  byteLength: 1,
  widthPx: size[0],
  heightPx: size[1],
  kind: 'JPEG',
  sceneLinear: false,
  meanLight: 0.5,
  ...more,
});
const jobOf = (...frames: Frame[]): Job => ({
  ...newJob(),
  print: { widthMm: 100, heightMm: 100, viewingDistanceMm: 400 },
  viewSlots: 2,
  frames,
});
const at = (zoom: number, right = 0) => ({ place: { zoom, right, down: 0, turnDeg: 0 } });

describe('a picture that is a stop darker than those beside it', () => {
  const dark = (more: Partial<Frame>) =>
    jobOf(
      ...[0, 1, 2, 3, 4, 5, 6, 7, 8].map((i) =>
        frameOf(
          `view_${i}`,
          [900, 900],
          i === 4 ? { meanLight: 0.2, ...more } : { meanLight: 0.4 },
        ),
      ),
    );
  const flickers = (job: Job) => arrivalFindings(job).find(({ id }) => id === 'frames-brightness');

  test('is told, until its brightness is made up for', () => {
    expect(flickers(dark({}))?.figure).toMatch(/^view_4\.jpg: 1 stops darker/);
    expect(flickers(dark({ light: { stops: 1, warmth: 0, tint: 0 } }))).toBeUndefined();
  });
});

describe('pictures of other shapes', () => {
  const mixed = (job: Job) => frameFindings(job).find(({ id }) => id === 'mixed-sizes');
  const lying = frameOf('glasshouse', [1200, 900]);

  test('are to be placed, and need not be rendered again', () => {
    const found = mixed(jobOf(lying, frameOf('lighthouse', [900, 1200])));
    expect(found?.remedy).toMatch(/^Place each of them/);
    expect(found?.action).toMatchObject({ label: 'Place them', goTo: 'frames' });
  });

  test('are no matter once they are placed', () => {
    expect(mixed(jobOf(lying, frameOf('lighthouse', [900, 1200], at(1.2))))).toBeUndefined();
  });
});

describe('a placed picture that leaves paper bare', () => {
  // A square on a square print of 100 mm, shifted by 4 mm: 4 of the 50 mm left of the middle are missing.
  const short = frameOf('lighthouse', [900, 900], at(1, 0.04));

  test('is named, with the side, its width, and the zoom that covers it', () => {
    const found = bareFinding(jobOf(frameOf('glasshouse', [900, 900]), short));
    expect(found).toMatchObject({
      severity: 'caution',
      title: 'lighthouse.jpg leaves paper bare',
      figure: expect.stringMatching(/^(4|3\.9) mm at the left$/) as string,
    });
    // 50 / 46, in steps of a tenth of a per cent.
    expect(found?.action?.label).toBe('Zoom to 108.7 %');
  });

  test('is cured by that press', () => {
    const job = jobOf(short);
    const { action } = bareFinding(job) ?? {};
    if (action === undefined || !('edit' in action)) throw new Error('There is no press.');
    expect(bareFinding(action.edit(job))).toBeUndefined();
  });

  test('is not spoken of where pictures lie as “Fit whole” lays them', () => {
    const fit = { mode: 'fit', shiftX: 0, shiftY: 0 } as const;
    const job = { ...jobOf(frameOf('lighthouse', [1200, 900])), placement: fit };
    expect(bareFinding(job)).toBeUndefined();
  });

  test('leads to Frames where no zoom about the middle covers it', () => {
    const found = bareFinding(jobOf(frameOf('lighthouse', [900, 900], at(1, 0.6))));
    expect(found?.action).toMatchObject({ goTo: 'frames' });
  });
});
