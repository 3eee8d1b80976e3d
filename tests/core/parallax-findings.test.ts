/** What the findings make of measured motion, given as it would come from the matching. */
import { describe, expect, test } from 'vitest';
import type { PairMotion } from '../../src/core/frames/parallax/pair.ts';
import { setKeyShift } from '../../src/job/edits.ts';
import type { Finding } from '../../src/job/finding.ts';
import { findings } from '../../src/job/findings.ts';
import type { Job } from '../../src/job/job.ts';
import { newJob } from '../../src/job/job.ts';
import type { MeasuredParallax } from '../../src/job/parallax.ts';
import { parallaxKeyOf, parallaxScaleOf } from '../../src/job/parallax.ts';

const jobOf = (count: number, change: Partial<Job> = {}): Job => ({
  ...newJob(),
  depthGain: 0.5,
  frames: Array.from({ length: count }, (_, index) => ({
    id: `f${index}`,
    name: `f${String(index + 1).padStart(2, '0')}.png`,
    byteLength: 1,
    widthPx: 1200,
    heightPx: 1500,
    kind: 'PNG',
    sceneLinear: false,
    meanLight: 0.3,
  })),
  ...change,
});

const [COLUMNS, ROWS] = [20, 25];
interface Made {
  /** Lenticules a step at the left edge and at the right. */
  readonly from: number;
  readonly to: number;
  readonly rise?: (u: number, v: number) => number;
}
const motion = (job: Job, { from, to, rise = () => 0 }: Made): PairMotion => {
  const { lenticulesAcross } = parallaxScaleOf(job);
  const place = (make: (u: number, v: number) => number) =>
    Float32Array.from(
      { length: COLUMNS * ROWS },
      (_, at) =>
        make(
          (2 * ((at % COLUMNS) + 0.5)) / COLUMNS - 1,
          (2 * (Math.floor(at / COLUMNS) + 0.5)) / ROWS - 1,
        ) / lenticulesAcross,
    );
  return {
    columns: COLUMNS,
    rows: ROWS,
    placeWidth: 1 / COLUMNS,
    placeHeight: 1 / ROWS,
    shift: place((u) => from + ((to - from) * (u + 1)) / 2),
    rise: place(rise),
  };
};
const measured = (
  job: Job,
  made: (pair: number) => Made,
  votes = { right: 90, reversed: 10 },
): MeasuredParallax => ({
  key: parallaxKeyOf(job),
  pairs: job.frames.slice(1).map((_, pair) => motion(job, made(pair))),
  votes,
});
const found = (job: Job, parallax: MeasuredParallax): Finding[] =>
  findings(job, { prepareFaults: new Map(), arrivalNotes: [], parallax }).filter(({ id }) =>
    /^(order|parallax)-/.test(id),
  );
const idsOf = (job: Job, parallax: MeasuredParallax) => found(job, parallax).map(({ id }) => id);
const mended = (job: Job, finding: Finding | undefined): Job => {
  if (finding?.action === undefined || !('edit' in finding.action)) throw new Error('No remedy.');
  return finding.action.edit(job);
};

describe('findings from measured parallax', () => {
  const job = jobOf(12);
  const within = () => ({ from: -0.8, to: 0.8 });

  test('within the sharp range, level, even and in order there is nothing to say', () => {
    expect(idsOf(job, measured(job, within))).toEqual([]);
  });

  test('what was measured of another sequence is not held against this one', () => {
    const other = jobOf(11);
    expect(
      idsOf(
        other,
        measured(job, () => ({ from: -5, to: 5 })),
      ),
    ).toEqual([]);
  });

  test('a lopsided depth is mended by moving the key plane into its middle', () => {
    const parallax = measured(job, () => ({ from: 0.4, to: 2.4 }));
    const [finding] = found(job, parallax);
    expect(finding).toMatchObject({ id: 'parallax-beyond-sharp', severity: 'caution' });
    const after = mended(job, finding);
    // Two in a hundred are left out at either end, so the middle stays where it is: 1.4.
    expect(after.keyShift).toBeCloseTo(1.4, 1);
    expect(idsOf(after, { ...parallax, key: parallaxKeyOf(after) })).toEqual([]);
  });

  test('a depth too deep on both sides wants a lower gain, by as much as it is too deep', () => {
    const [finding] = found(
      job,
      measured(job, () => ({ from: -2, to: 2 })),
    );
    expect(finding?.action).toBeUndefined();
    const gain = Number(/gain to ([\d.]+)/.exec(finding?.remedy ?? '')?.[1]);
    // Half the depth is near 2 lenticules, so near half the gain of 0.5.
    expect(gain).toBeGreaterThan(0.24);
    expect(gain).toBeLessThan(0.28);
  });

  test('with frames to spare the middle ones are taken', () => {
    const many = jobOf(23);
    const parallax = measured(many, () => ({ from: -0.9, to: 0.9 }));
    const [finding] = found(many, parallax);
    expect(finding?.id).toBe('parallax-beyond-sharp');
    const after = mended(many, finding);
    expect(after.slotsByHand).toEqual(many.frames.slice(5, 17).map(({ id }) => id));
    expect(idsOf(after, parallax)).toEqual([]);
  });

  test('edges that say so are a problem with its remedy; the ground alone is a caution', () => {
    const certain = found(job, measured(job, within, { right: 10, reversed: 90 }))[0];
    expect(certain).toMatchObject({ id: 'order-reversed', severity: 'problem' });
    expect(certain?.figure).toBe('90 % of 100 edges say so');
    expect(mended(job, certain).frames[0]?.name).toBe('f12.png');
    // The foot of the picture behind, its head in front, and no edges to ask.
    const sloping = measured(job, within, { right: 0, reversed: 0 });
    const turned = sloping.pairs.map((pair) =>
      pair === undefined
        ? undefined
        : {
            ...pair,
            shift: pair.shift.map(
              (_, at) =>
                (Math.floor(at / COLUMNS) / ROWS - 0.5) / parallaxScaleOf(job).lenticulesAcross,
            ),
          },
    );
    expect(found(job, { ...sloping, pairs: turned })[0]).toMatchObject({
      id: 'order-reversed',
      severity: 'caution',
    });
  });

  test('a crooked rail and toed-in cameras are told apart', () => {
    const rail = found(
      job,
      measured(job, (pair) => ({ ...within(), rise: () => (pair === 3 ? 0.6 : 0) })),
    );
    expect(rail.map(({ id }) => id)).toEqual(['parallax-not-level']);
    expect(rail[0]?.figure).toBe('0.6 lenticules from f04.png to f05.png');
    const toed = found(
      job,
      measured(job, () => ({ ...within(), rise: (u, v) => 0.5 * u * v })),
    );
    expect(toed[0]?.title).toMatch(/turned towards each other/);
  });

  test('one uneven step is named; where half of them differ there is no ordinary one', () => {
    const one = found(
      job,
      measured(job, (pair) => (pair === 6 ? { from: -1.2, to: 1.2 } : within())),
    ).filter(({ id }) => id === 'parallax-uneven');
    expect(one[0]?.figure).toBe('f07.png to f08.png: 1.5 steps');
    const swaying = measured(job, (pair) =>
      pair < 6 ? { from: -0.8, to: 0.8 } : { from: 0.8, to: -0.8 },
    );
    expect(idsOf(job, swaying)).not.toContain('parallax-uneven');
  });

  test('the moved key plane is taken off what was measured, without measuring again', () => {
    const moved = setKeyShift(job, 1.5);
    const parallax = measured(moved, () => ({ from: 0.8, to: 2.2 }));
    expect(idsOf(moved, parallax)).toEqual([]);
    expect(idsOf(setKeyShift(moved, 0), parallax)).toEqual(['parallax-beyond-sharp']);
  });
});
