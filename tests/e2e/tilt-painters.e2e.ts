/** The tilt proof's two painters against each other, and the shader against core/lens/mix.ts. */
import { expect, test } from './support/any-visit.ts';
import { mix } from '../../src/core/lens/mix.ts';
import type { Drift } from '../../src/core/proof/scene.ts';
import { DRIFT_STEPS } from '../../src/core/proof/scene.ts';
import { MIX_ERROR } from '../../workers/proof/mix-glsl.ts';
import {
  bundleHarness,
  flatScene,
  N,
  open,
  picture,
  show,
  unpack,
  viewFrom,
} from './support/tilt-shots.ts';

test.beforeAll(bundleHarness);

/** A drift of so many zones at the edges, more at one than at the other, and at the ends of the ribs. */
const bent = (edges: number, ends: number): Drift => {
  const steps = Array.from({ length: DRIFT_STEPS + 1 }, (_, i) => (2 * i) / DRIFT_STEPS - 1);
  return {
    across: steps.map((x) => edges * (x ** 3 + 0.3 * x * x)),
    ends: steps.map((x) => ends * (1 + x)),
  };
};

test.describe('with either painter', () => {
  test.beforeEach(({ page }) => open(page));

  test('the picture is the same', async ({ page }) => {
    const soft = (view: number) =>
      picture(96, 128, (column, row) =>
        [
          128 + 100 * Math.sin(column / 9 + view / 3),
          128 + 100 * Math.sin(row / 11 - view / 4),
          128 + 100 * Math.cos((column + row) / 13),
        ].map(Math.round),
      );
    const scene = flatScene({
      frames: Array.from({ length: N }, (_, view) => soft(view)),
      lenticules: 96,
      acrossStart: 0.3,
      acrossSpan: 95.2,
    });
    const views = [
      viewFrom(0.43, { blur: { spot: 0.12, dot: 0.1 } }),
      viewFrom(0.2, { blur: { spot: 0.2, dot: 0.1 }, rightPlace: 0.35 }),
      viewFrom(0.5, {
        blur: { spot: 0.1, dot: 0.1 },
        slide: { offset: 0.1, across: 1, along: 0.5 },
      }),
      viewFrom(0.4, {
        blur: { spot: 0.12, dot: 0.1 },
        drift: bent(0.4, 0.15),
        rightPlace: 0.6,
        rightDrift: bent(-0.3, 0.1),
      }),
    ];
    for (const size of [
      [240, 160],
      [90, 60],
    ] as const) {
      const [one, other] = [
        await show(page, 'card', scene, views, size),
        await show(page, 'processor', scene, views, size),
      ];
      one.forEach((shot, index) => {
        const away = shot.rgba.map((value, at) =>
          Math.abs(value - (other[index]?.rgba[at] ?? 999)),
        );
        const mean = away.reduce((sum, value) => sum + value, 0) / away.length;
        // Two filters, a box and the graphics driver's own: near, not equal.
        expect(mean, `view ${index} at ${size.join(' × ')}`).toBeLessThan(1);
        const most = away.reduce((largest, value) => Math.max(largest, value), 0);
        expect(most, `view ${index} at ${size.join(' × ')}`).toBeLessThanOrEqual(12);
      });
    }
  });

  test('the context may be lost and come back', async ({ page }) => {
    const [before] = await show(page, 'card', flatScene(), [viewFrom(0.3)]);
    const after = await page.evaluate(() => window.proofBench.loseContext());
    expect(unpack(after).rgba.equals(before?.rgba ?? Buffer.of())).toBe(true);
  });

  test(`the shader shares out as core/lens/mix does, within ${MIX_ERROR}`, async ({ page }) => {
    const cases: number[][] = [];
    for (const count of [2, 7, 12, 48])
      for (const [spot, dot] of [
        [0, 0],
        [0.1, 0],
        [0, 0.08],
        [0.1, 0.08],
        [0.3, 0.001],
        [0.2, 0.2],
      ] as const)
        for (let step = 0; step < 25; step += 1)
          cases.push([-1.03 + step * 0.1271, count, spot, dot]);
    const cells = 40;
    const found = await page.evaluate(
      (given) => window.proofBench.glslShares(given.cases, given.cells),
      { cases, cells },
    );
    let worst = 0;
    cases.forEach(([u = NaN, count = NaN, spot = NaN, dot = NaN], index) => {
      const fromShader = new Map<string, number>();
      const row = found[index] ?? [];
      for (let cell = 0; cell < cells; cell += 1) {
        const [share = NaN, rib, slot] = row.slice(cell * 3, cell * 3 + 3);
        if (share > 0) fromShader.set(`${rib} ${slot}`, share);
      }
      const wanted = mix(u, count, { spot, dot });
      for (const { rib, slot, share } of wanted)
        worst = Math.max(worst, Math.abs(share - (fromShader.get(`${rib} ${slot}`) ?? 0)));
      const sum = [...fromShader.values()].reduce((total, share) => total + share, 0);
      worst = Math.max(worst, Math.abs(sum - 1));
    });
    expect(worst).toBeLessThan(MIX_ERROR);
  });
});
