/**
 * The lens bench and the scene are the measure of the weave, so they are measured first, against
 * published numbers and closed forms.
 */
import { describe, expect, test } from 'vitest';
import type { BenchLens } from './lens-bench.ts';
import { bundlesOfRib, lookThrough, traceRay } from './lens-bench.ts';
import type { Plane } from './scene.ts';
import { renderFrom } from './scene.ts';

/** The lens of the encyclopaedia article "Lenticular printing", see docs/optics.md, check values. */
const article: BenchLens = {
  pitchMm: 0.33665,
  thicknessMm: 0.457,
  radiusMm: 0.1905,
  index: 1.557,
};

describe('the lens bench', () => {
  test('lands 58.03 µm off for an eye 100 mm off centre at 500 mm (docs/optics.md)', () => {
    const { printMm } = traceRay(article, 0, 0, { acrossMm: 100, distanceMm: 500 });
    expect(Math.abs(printMm * 1000 + 58.03)).toBeLessThan(0.01);
  });

  test('obeys the scalar law sin θ = n sin θ′ where the rib is flat', () => {
    const flat = { ...article, radiusMm: 1e9 };
    for (const across of [-300, -20, 0, 150, 700]) {
      const { printMm } = traceRay(flat, 0, 0.1, { acrossMm: across, distanceMm: 400 });
      const inside = Math.asin(Math.sin(Math.atan((0.1 - across) / 400)) / flat.index);
      expect(printMm).toBeCloseTo(0.1 + flat.thicknessMm * Math.tan(inside), 6);
    }
  });

  test('focuses near the crest at r / (n − 1) = 342 µm in air, 48 µm behind the print', () => {
    // Focal length and back focal distance published with the same lens (docs/optics.md). Seen in
    // the sheet the focus lies n times as deep.
    const offCrest = 0.001;
    const { printMm } = traceRay(article, 0, offCrest, { acrossMm: 0, distanceMm: 1e7 });
    const inSheetMm = article.thicknessMm / (1 - printMm / offCrest);
    const focalMm = inSheetMm / article.index;
    expect(focalMm * 1000).toBeCloseTo(342, 0);
    const behindUm = (focalMm - article.thicknessMm / article.index) * 1000;
    expect(Math.abs(behindUm - 48)).toBeLessThan(1);
  });

  test('the bundles of a rib share out all of it, and meet where the lens is in focus', () => {
    const thicknessMm = (article.radiusMm * article.index) / (article.index - 1);
    // Opened to a tenth of its radius the rib has no aberration to speak of.
    const narrow = { ...article, thicknessMm, pitchMm: article.radiusMm / 10 };
    const bundles = bundlesOfRib(narrow, 0, { acrossMm: 0, distanceMm: 1e7 });
    expect(bundles.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 12);
    const from = Math.min(...bundles.map((bundle) => bundle.from));
    const to = Math.max(...bundles.map((bundle) => bundle.to));
    expect(to - from).toBeLessThan(narrow.pitchMm / 300);
  });

  test('an even print looks even, in linear light, whatever the eye and the sheet', () => {
    const rgb = new Uint8Array(400 * 2 * 3).fill(188);
    const print = { rgb, widthDots: 400, heightDots: 2, acrossDpi: 720 };
    const eye = { acrossMm: 90, distanceMm: 400 };
    const seen = lookThrough(article, { ...print, lensRibs: 'upright' }, eye, { shiftMm: 0.1 });
    expect(seen.ribs).toBeGreaterThan(38);
    // Code 188 is 0.502886 linear (IEC 61966-2-1).
    for (const value of seen.light) expect(value).toBeCloseTo(0.502886, 6);
  });

  test('a bright half is seen by the ribs over it, and lying ribs read columns as lines', () => {
    const [width, height] = [360, 3];
    const upright = new Uint8Array(width * height * 3);
    const lying = new Uint8Array(width * height * 3);
    for (let dot = width / 2; dot < width; dot += 1)
      for (let line = 0; line < height; line += 1) {
        upright.fill(255, (line * width + dot) * 3, (line * width + dot) * 3 + 3);
        lying.fill(255, (dot * height + line) * 3, (dot * height + line) * 3 + 3);
      }
    const eye = { acrossMm: 0, distanceMm: 400 };
    const dpi = { acrossDpi: 720 };
    const standing = lookThrough(
      article,
      { rgb: upright, widthDots: width, heightDots: height, lensRibs: 'upright', ...dpi },
      eye,
    );
    for (let rib = 0; rib < standing.ribs; rib += 1) {
      const number = standing.firstRib + rib;
      if (number !== 0) expect(standing.light[rib * 3]).toBeCloseTo(number > 0 ? 1 : 0, 12);
    }
    const turned = lookThrough(
      article,
      { rgb: lying, widthDots: height, heightDots: width, lensRibs: 'lying', ...dpi },
      eye,
    );
    expect(turned).toEqual(standing);
  });
});

describe('the scene', () => {
  test.each([
    ['left', -32.5, -181.36, 233.36],
    ['right', 32.5, -233.36, 181.36],
  ])('the %s eye has the off-axis frustum of the published rig', (_, xMm, left, right) => {
    // docs/optics.md, off-axis frustum (stereo-pair tutorial): screen 518.4 × 324, distance 1000,
    // eyes 65 apart, near plane 800 from the eye: its edges, counted from the eye.
    const ruler: Plane = {
      zMm: -200,
      covers: () => true,
      colour: (x, y) => [x - xMm, y, 0],
    };
    const screen = { leftMm: -259.2, topMm: -162, widthMm: 518.4, heightMm: 324 };
    const eye = { xMm, yMm: 0, distanceMm: 1000 };
    const { light } = renderFrom([ruler], eye, screen, 5184, 2, 1);
    const half = (light[3]! - light[0]!) / 2;
    expect(light[0]! - half).toBeCloseTo(left, 6);
    expect(light[(5184 - 1) * 3]! + half).toBeCloseTo(right, 6);
    // Top and bottom ±129.6; two rows have their middles half way there.
    expect(light[1]!).toBeCloseTo(-129.6 / 2, 6);
  });

  test('nothing moves on the key plane', () => {
    const key: Plane = { zMm: 0, covers: () => true, colour: (x, y) => [x, y, 0] };
    const window = { leftMm: -50, topMm: -5, widthMm: 100, heightMm: 10 };
    const from = (xMm: number) =>
      renderFrom([key], { xMm, yMm: 3, distanceMm: 400 }, window, 50, 5, 2).light;
    const [left, right] = [from(-80), from(80)];
    left.forEach((value, i) => expect(value).toBeCloseTo(right[i]!, 9));
  });

  test('what is in front hides what is behind', () => {
    const near: Plane = { zMm: -4, covers: (x) => x > 0, colour: () => [1, 0, 0] };
    const far: Plane = { zMm: 4, covers: () => true, colour: () => [0, 1, 0] };
    const window = { leftMm: -10, topMm: -1, widthMm: 20, heightMm: 2 };
    const eye = { xMm: 0, yMm: 0, distanceMm: 400 };
    const { light } = renderFrom([near, far], eye, window, 2, 1);
    for (const [index, value] of [0, 1, 0, 1, 0, 0].entries())
      expect(light[index]).toBeCloseTo(value, 9);
  });
});
