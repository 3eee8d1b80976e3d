/** What the findings make of measured motion, given as it would come from the matching. */
import { describe, expect, test } from 'vitest';
import type { PairMotion } from '../../../src/core/frames/parallax/pair.ts';
import { setKeyShift, setSoften } from '../../../src/job/edits/consequences.ts';
import type { Finding } from '../../../src/job/findings/finding.ts';
import { findings } from '../../../src/job/findings/all.ts';
import type { Job } from '../../../src/job/schema/job.ts';
import { newJob } from '../../../src/job/schema/job.ts';
import type { MeasuredParallax, WholeParallax } from '../../../src/job/facts/parallax.ts';
import { parallaxKeyOf, parallaxScaleOf } from '../../../src/job/facts/parallax.ts';
import { rigGainThatFits } from '../../../src/job/facts/rig.ts';
import { softenKeyOf, softeningOf } from '../../../src/job/facts/soften.ts';
import { usualGapMm } from '../../golden/traced-by-bench.ts';

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
  /** Ribs per view at the left edge and at the right. */
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
    const deep = (of: Job) => measured(of, () => ({ from: -5, to: 5 }));
    expect(idsOf(jobOf(11), deep(job))).toEqual([]);
    // Nor is the motion in an animation a depth.
    const moments = jobOf(12, { recipe: { kind: 'animation' } });
    expect(idsOf(moments, deep(moments))).toEqual([]);
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

  test('the lower gain is the one that Shoot gives: the key plane stays, so the farthest decides', () => {
    // 400 mm, twelve views, g' 0.49827 mm by the bench of tests/golden: at a gain of 0.1 a thing z behind moves
    // 0.1 × 400 z / (12 × 0.49827 × (400 + z)) ribs per view (relation 6).
    const ribs = (z: number) => (0.1 * 400 * z) / (12 * usualGapMm * (400 + z));
    const deep = jobOf(12, { depthGain: 0.1, rig: { near: 90, far: 400 } });
    const [nearest, farthest] = [ribs(-90), ribs(400)];
    // A few places at either end are left out of what was measured; spread them a little wider.
    const parallax = measured(deep, () => ({ from: nearest * 1.0001, to: farthest * 1.0001 }));
    const [finding] = found(deep, parallax);
    const gain = Number(/gain to ([\d.]+)/.exec(finding?.remedy ?? '')?.[1]);
    const most = Math.max(Math.abs(nearest), farthest);
    expect(rigGainThatFits(deep)).toBeCloseTo(0.1 / most, 3);
    expect(gain / (0.1 / most)).toBeGreaterThan(0.97);
    expect(gain / (0.1 / most)).toBeLessThan(1.08);
    expect(gain).toBeLessThan(0.1 / ((farthest - nearest) / 2) / 1.1);
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

  test('a crooked camera slide and toed-in cameras are told apart', () => {
    const rail = found(
      job,
      measured(job, (pair) => ({ ...within(), rise: () => (pair === 3 ? 0.6 : 0) })),
    );
    expect(rail.map(({ id }) => id)).toEqual(['parallax-not-level']);
    expect(rail[0]?.figure).toBe('0.6 ribs from f04.png to f05.png');
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

  describe('softening', () => {
    const deep = () => ({ from: -3, to: 3 });
    const whole = (job: Job, made = deep): WholeParallax => {
      const { key, pairs, votes } = measured(job, made);
      return {
        key,
        pairs: pairs.filter((pair) => pair !== undefined),
        votes: votes ?? { right: 0, reversed: 0 },
      };
    };
    const all = (job: Job, parallax: WholeParallax | undefined) =>
      findings(job, {
        prepareFaults: new Map(),
        arrivalNotes: [],
        parallax,
        wholeParallax: parallax,
      }).filter(({ id }) => /^(soften|parallax)-/.test(id));

    test('is offered for what lies beyond, and turns the caution into a note', () => {
      const [finding] = all(job, whole(job));
      expect(finding?.severity).toBe('caution');
      expect(finding?.otherAction?.label).toBe('Soften what lies beyond');
      const after = mended(job, { ...finding!, action: finding!.otherAction! });
      expect(after.soften).toBe(1);
      const [note, ...others] = all(after, whole(after));
      expect(note).toMatchObject({ id: 'parallax-beyond-sharp', severity: 'note' });
      expect(note?.title).toMatch(/is softened/);
      expect(note?.otherAction).toBeUndefined();
      expect(others).toEqual([]);
    });

    test('waits for a measurement of these very frames, and says so', () => {
      const wanted = setSoften(job, 0.5);
      expect(all(wanted, undefined).map(({ id }) => id)).toEqual(['soften-unmeasured']);
      const other = jobOf(11);
      expect(all(wanted, whole(other)).map(({ id }) => id)).toEqual(['soften-unmeasured']);
      expect(softeningOf(wanted, whole(other), wanted.frames[0]!)).toBeUndefined();
      expect(softenKeyOf(wanted, whole(other))).toBeUndefined();
    });

    test('is nothing by default, at 0, and under lying ribs', () => {
      expect(softenKeyOf(job, whole(job))).toBeUndefined();
      expect(softeningOf(job, whole(job), job.frames[0]!)).toBeUndefined();
      expect(setSoften(setSoften(job, 1), 0)).toEqual(job);
      const lying: Job = { ...setSoften(job, 1), ribs: 'lying' };
      expect(softeningOf(lying, whole(lying), lying.frames[0]!)).toBeUndefined();
      expect(all(lying, whole(lying))[0]?.otherAction).toBeUndefined();
    });

    test('goes by ribs per view, with the moved key plane taken off', () => {
      const wanted = setSoften(jobOf(23, { keyShift: 0.5 }), 1);
      const softening = softeningOf(wanted, whole(wanted), wanted.frames[4]!);
      expect(softening?.strength).toBe(1);
      // 23 frames over 12 slots: two steps a view. At the left −3 by the frames' own key plane.
      const left = softening?.map.steps[0] ?? NaN;
      const u = -1 + 1 / COLUMNS;
      expect(left).toBeCloseTo(2 * (3 * u - 0.5), 3);
    });

    test('the last frame takes the motion that led to it; a second row of cameras begins again', () => {
      const one = setSoften(job, 1);
      const rising = whole(one, ((pair: number) => ({ from: pair, to: pair })) as typeof deep);
      const at = (job: Job, index: number) =>
        softeningOf(job, { ...rising, key: parallaxKeyOf(job) }, job.frames[index]!)?.map.steps[0];
      expect([at(one, 0), at(one, 10), at(one, 11)].map((step) => Math.round(step ?? NaN))).toEqual(
        [0, 10, 10],
      );
      const second = one.frames.slice(6).map(({ id }) => id);
      const crossing: Job = {
        ...one,
        recipe: { kind: 'change', second, crossAt: 0.5, crossWidth: 0.2 },
      };
      expect(Math.round(at(crossing, 5) ?? NaN)).toBe(4);
      expect(Math.round(at(crossing, 6) ?? NaN)).toBe(6);
    });

    test('a title over the slots is left as it is', () => {
      const titled: Job = { ...setSoften(job, 1), title: { frame: 'f3', step: 0 } };
      expect(softeningOf(titled, whole(titled), titled.frames[3]!)).toBeUndefined();
      expect(softeningOf(titled, whole(titled), titled.frames[2]!)).toBeDefined();
    });

    test('the key of prepared frames changes with strength and motion alone', () => {
      const one = setSoften(job, 1);
      const key = softenKeyOf(one, whole(one));
      expect(key).toBeDefined();
      expect(softenKeyOf(one, whole(one))).toBe(key);
      expect(softenKeyOf(setSoften(job, 0.5), whole(one))).not.toBe(key);
      expect(
        softenKeyOf(
          one,
          whole(one, () => ({ from: -2, to: 3 })),
        ),
      ).not.toBe(key);
    });
  });
});
