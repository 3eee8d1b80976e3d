/**
 * The paraxial relations of docs/optics.md and its "Signs that a test must pin down", each against a
 * ray trace that shares nothing with src (tests/golden/lens-bench.ts: Snell's law and an arc).
 */
import { describe, expect, test } from 'vitest';
import type { LensSheet } from '../../../src/core/lens/lens.ts';
import {
  paraxialCone,
  paraxialLanding,
  paraxialPitch,
  paraxialZone,
  viewAtPlace,
} from '../../../src/core/lens/lens.ts';
import { mm } from '../../../src/core/units/units.ts';
import { lenticulesOver } from '../../../src/core/weave/column-map.ts';
import type { SheetSpec } from '../../../src/core/weave/sheet-spec.ts';
import type { BenchLens, Eye, Laid } from '../../golden/lens-bench.ts';
import { lookThrough, traceRay } from '../../golden/lens-bench.ts';
import type { Job } from '../../golden/press.ts';
import {
  cameraStepMm,
  framesOf,
  jobOf,
  lensInFocus,
  printOf,
  weaveSheet,
} from '../../golden/press.ts';
import { benchGap, benchPitch } from '../../golden/traced-by-bench.ts';
import type { Plane } from '../../golden/scene.ts';
import { renderFrom } from '../../golden/scene.ts';

const bench = lensInFocus(60, 0.3);
const sheetOf = (lens: BenchLens): LensSheet => ({
  pitchMm: mm(lens.pitchMm),
  thicknessMm: mm(lens.thicknessMm),
  index: lens.index,
});
const D = 400;
const N = 12;
const pv = benchPitch(bench, D); // relation 2
const step = (D * bench.pitchMm) / (N * benchGap(bench)); // relation 5

const mean = (values: readonly number[]) => values.reduce((a, b) => a + b, 0) / values.length;

const crestLanding = (crestMm: number, eye: Eye) => traceRay(bench, crestMm, 0, eye).printMm;

describe('the paraxial relations are the limit of the trace', () => {
  test.each([40, 10, 2.5])('relation 1, eye %d mm off: the error is of third order', (off) => {
    // tan(asin(sin θ / n)) = θ / n + θ³ (…): against slope s the landing is off by
    // t (s / n) · s² (1 − 1/n²) / 2 to leading order, from the series of tan, asin and atan.
    const exact = crestLanding(0, { acrossMm: off, distanceMm: D });
    const paraxial = paraxialLanding(sheetOf(bench), mm(0), mm(off), mm(D));
    const slope = off / D;
    const { thicknessMm: t, index: n } = bench;
    const third = ((t * slope) / n) * slope ** 2 * (0.5 - 0.5 / n ** 2);
    expect((exact - paraxial) / third).toBeGreaterThan(0.95);
    expect((exact - paraxial) / third).toBeLessThan(1.05);
  });

  test('relation 1, any rib and any eye near the axis', () => {
    for (const rib of [-7, 0, 1, 12])
      for (const off of [-6, 0, 3]) {
        const crest = rib * bench.pitchMm;
        const exact = crestLanding(crest, { acrossMm: off, distanceMm: D });
        // Slopes stay under 0.03: third-order terms under 0.02 µm.
        expect(paraxialLanding(sheetOf(bench), mm(crest), mm(off), mm(D))).toBeCloseTo(exact, 4);
      }
  });

  test.each([300, 500, 1000])('relation 2: neighbouring landings from %d mm lie p_v apart', (d) => {
    const eye = { acrossMm: 0, distanceMm: d };
    const apart = crestLanding(bench.pitchMm / 2, eye) - crestLanding(-bench.pitchMm / 2, eye);
    const growth = apart / bench.pitchMm - 1;
    expect(paraxialPitch(sheetOf(bench), mm(d)) / bench.pitchMm - 1).toBeCloseTo(growth, 8);
    // And neither the lens pitch itself nor t in the place of t / n.
    expect(growth).toBeGreaterThan((0.99 * bench.thicknessMm) / bench.index / d);
    expect(growth).toBeLessThan((0.7 * bench.thicknessMm) / d);
  });

  test('relation 4: an eye one zone on looks one pitch further left', () => {
    // A distant zone is met at small slopes only when the cone is narrow: a fine, thick sheet.
    const narrow: BenchLens = { pitchMm: 0.05, thicknessMm: 1, radiusMm: 0.5, index: 1.57 };
    const zone = paraxialZone(sheetOf(narrow), mm(D));
    const from = (acrossMm: number) => traceRay(narrow, 0, 0, { acrossMm, distanceMm: D }).printMm;
    expect((from(-zone / 2) - from(zone / 2)) / narrow.pitchMm).toBeCloseTo(1, 3);
    const cone = 2 * Math.atan(zone / 2 / D);
    expect(paraxialCone(sheetOf(narrow))).toBeCloseTo(cone, 12);
  });
});

/** A sheet whose views are plain colours, linear light 0 … 1. */
const plainViews = (colour: (view: number, channel: number) => number, change = {}) => {
  const { sheet } = jobOf({
    ...{ lens: bench, distanceMm: D, dpi: 720, views: N, depthMm: 0 },
    sheet: { heightDots: 1, ...change },
  });
  const columns = lenticulesOver(sheet).count;
  const frames = Array.from({ length: N }, (_, view) => ({
    columns,
    rows: 1,
    pixels: Uint16Array.from({ length: columns * 3 }, (_, i) => colour(view, i % 3) * 65535),
  }));
  return printOf(sheet, weaveSheet(sheet, frames));
};

/** View i in linear light i / (N − 1), grey. */
const stairs = (change: Partial<SheetSpec> = {}) => plainViews((view) => view / (N - 1), change);

/** Which view each rib shows, read from its grey. */
const viewsSeen = (print: ReturnType<typeof stairs>, eye: Eye, laid?: Laid) => {
  const seen = lookThrough(bench, print, eye, laid);
  return Array.from({ length: seen.ribs }, (_, i) => ({
    rib: seen.firstRib + i,
    view: seen.light[i * 3]! * (N - 1),
  }));
};

describe('eye moves right → the view shown moves towards the right camera', () => {
  const print = stairs();
  test.each([-3.5, -2.5, -1, 0, 0.5, 1, 3, 3.5])('%d camera steps across', (at) => {
    // Camera i stands at (i − (N − 1)/2) Δ (relation 5): the eye in its place sees its view. Single
    // ribs may be a dot, and so a view, off: the dots do not know where the ribs are.
    const off = viewsSeen(print, { acrossMm: at * step, distanceMm: D }).map(
      ({ view }) => view - (at + (N - 1) / 2),
    );
    expect(Math.abs(mean(off))).toBeLessThan(0.5);
    expect(Math.max(...off.map(Math.abs))).toBeLessThan(1);
  });

  test('past the left end of the zone the last views come again', () => {
    const leftEnd = -paraxialZone(sheetOf(bench), mm(D)) / 2;
    const seen = [0.88, 1.28].map((share) => {
      const views = viewsSeen(print, { acrossMm: leftEnd * share, distanceMm: D });
      return views[Math.floor(views.length / 2)]!.view;
    });
    expect(seen[0]).toBeLessThan(3);
    expect(seen[1]).toBeGreaterThan(8);
  });
});

describe('the middle of the print', () => {
  const eye = { acrossMm: 0, distanceMm: D };
  const middle = (print: ReturnType<typeof stairs>, laid?: Laid) =>
    viewsSeen(print, eye, laid).find(({ rib }) => rib === 0)!.view;

  test('lies in the middle of one lenticule, between the two middle views', () => {
    expect(middle(stairs())).toBeCloseTo((N - 1) / 2, 1);
  });

  test('the offset carries the lenticule to the right, and the eye then sees further right', () => {
    // The crest now looks at a place further left under its rib: u falls by 1/N, v rises by one.
    expect(middle(stairs({ offsetMm: pv / N }))).toBeCloseTo((N - 1) / 2 + 1, 1);
    expect(middle(stairs({ offsetMm: -pv / N }))).toBeCloseTo((N - 1) / 2 - 1, 1);
  });

  test('a lens moved along with the offset shows what it showed', () => {
    // By whole dots, so that the printer's own grid, up to half a dot either way, stays out of it.
    const offsetMm = (4 * 25.4) / 720;
    expect(middle(stairs({ offsetMm }), { shiftMm: offsetMm })).toBeCloseTo((N - 1) / 2, 1);
  });
});

describe('a print too coarse and one too fine drift opposite ways', () => {
  // By relation 1 rib k sees the place u = ½ + (k (p_v − P) − g x_e / D) / P of a print woven at P.
  // One and the same u is met at k (p_v − P) = const + g x_e / D: too coarse, P > p_v, and the
  // pattern runs left as the eye goes right; too fine, and it runs right with the eye.
  const third = (2 * Math.PI) / 3;
  /** Views as three sinusoids a third of a cycle apart, so that colour tells the view (relation 10). */
  const wheel = (P: number) =>
    plainViews((view, c) => 0.5 + 0.5 * Math.cos((2 * Math.PI * view) / N - c * third), {
      viewingPitchMm: P,
    });
  /** Phase under each rib, in views, unwrapped from the first rib on. */
  const phases = (print: ReturnType<typeof wheel>, acrossMm: number): number[] => {
    const seen = lookThrough(bench, print, { acrossMm, distanceMm: D });
    const views: number[] = [];
    for (let rib = 0; rib < seen.ribs; rib += 1) {
      let [cos, sin] = [0, 0];
      for (let c = 0; c < 3; c += 1) {
        cos += seen.light[rib * 3 + c]! * Math.cos(c * third);
        sin += seen.light[rib * 3 + c]! * Math.sin(c * third);
      }
      const view = (Math.atan2(sin, cos) * N) / (2 * Math.PI);
      const last = views.at(-1) ?? view;
      views.push(view + N * Math.round((last - view) / N));
    }
    return views;
  };

  test.each([
    ['coarse', 1.01, -1],
    ['fine', 0.99, 1],
  ])('too %s', (_, ratio, sign) => {
    const P = pv * ratio;
    const print = wheel(P);
    const here = phases(print, -0.5 * step);
    const there = phases(print, 0.5 * step);
    const slope = (here.at(-1)! - here[0]!) / (here.length - 1);
    const turned = mean(there.map((view, rib) => view - here[rib]!));
    // The eye went right: a view towards the right camera, to within a whole wheel of N.
    const change = turned - N * Math.round(turned / N);
    expect(change).toBeGreaterThan(0);
    // The rib that shows now what this one showed before, in ribs from it.
    const drift = -change / slope;
    const byRelation1 = (benchGap(bench) * step) / D / (pv - P);
    expect(Math.sign(byRelation1)).toBe(sign);
    expect(drift / byRelation1).toBeGreaterThan(0.9);
    expect(drift / byRelation1).toBeLessThan(1.1);
  });

  test.each([1.01, 0.99])('src says the same, rib by rib, at %d of the pitch', (ratio) => {
    const P = pv * ratio;
    const acrossMm = 1.5 * step;
    const off = viewsSeen(stairs({ viewingPitchMm: P }), { acrossMm, distanceMm: D }).map(
      ({ rib, view }) => {
        const x = paraxialLanding(sheetOf(bench), mm(rib * bench.pitchMm), mm(acrossMm), mm(D));
        const place = x / P + 0.5;
        return viewAtPlace(place - Math.floor(place), N) - 0.5 - view;
      },
    );
    // Within half a view everywhere but at the seams, where the spot mixes last view and first.
    const good = off.filter((difference) => Math.abs(difference) < 0.5).length;
    expect(good / off.length).toBeGreaterThan(0.8);
  });
});

describe('depth moves with the camera behind the print, against it before', () => {
  const bar = (zMm: number): Plane[] => [
    { zMm, covers: (x) => Math.abs(x) < 1.5, colour: () => [1, 1, 1] },
  ];
  /** Middle of the light along a picture's columns, in columns. */
  const middleOf = (light: ArrayLike<number>, columns: number, rows: number) => {
    let [sum, moment] = [0, 0];
    for (let i = 0; i < columns * rows; i += 1) {
      sum += light[i * 3]!;
      moment += light[i * 3]! * ((i % columns) + 0.5);
    }
    return moment / sum;
  };

  test.each([4, -4])('z = %d mm', (zMm) => {
    const base = jobOf({
      ...{ lens: bench, distanceMm: D, dpi: 720, views: N, depthMm: 0 },
      sheet: { heightDots: 4 },
    });
    const job: Job = { ...base, scene: bar(zMm) };
    // Relation 6 for one step, at true depth: s = Δ z / (D + z).
    const perStep = (cameraStepMm(job) * zMm) / (D + zMm);
    const window = { leftMm: -50, topMm: -5, widthMm: 100, heightMm: 10 };
    const shot = (at: number) => {
      const eye = { xMm: at * step, yMm: 0, distanceMm: D };
      return middleOf(renderFrom(job.scene, eye, window, 1000, 1).light, 1000, 1) * 0.1;
    };
    expect((shot(2) - shot(-2)) / 4 / perStep).toBeCloseTo(1, 1);
    expect(Math.sign(shot(2) - shot(-2))).toBe(Math.sign(zMm));

    // And so it does through the lens, for the eye.
    const print = printOf(job.sheet, weaveSheet(job.sheet, framesOf(job)));
    const seenAt = (at: number) => {
      const seen = lookThrough(bench, print, { acrossMm: at * step, distanceMm: D });
      return (middleOf(seen.light, seen.ribs, seen.lines) + seen.firstRib) * bench.pitchMm;
    };
    expect((seenAt(2) - seenAt(-2)) / 4 / perStep).toBeGreaterThan(0.85);
    expect((seenAt(2) - seenAt(-2)) / 4 / perStep).toBeLessThan(1.1);
  });
});
