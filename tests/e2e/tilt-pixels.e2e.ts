/** What the tilt proof shows, pixel by pixel, against the relations of docs/optics.md. */
import type { Page } from 'playwright/test';
import { expect, test } from 'playwright/test';
import { build } from 'vite';
import { linearToSrgb, srgbToLinear } from '../../src/core/colour/srgb.ts';
import { viewAtPlace } from '../../src/core/lens/lens.ts';
import type { Blur } from '../../src/core/lens/mix.ts';
import { mix } from '../../src/core/lens/mix.ts';
import { MIX_ERROR } from '../../src/preview/mix-glsl.ts';
import type { ProofView, Slide } from '../../src/preview/scene.ts';
import type { PlainScene, Shot as Sent } from './support/tilt-harness.ts';

const N = 12;
const noSlide: Slide = { offset: 0, across: 0, along: 0 };
const sharp: Blur = { spot: 0, dot: 0 };
const painters = ['webgl', 'canvas'] as const;

/** Twelve colours far enough apart to tell one view from the next. */
const colours = Array.from({ length: N }, (_, view) => [
  20 + 19 * view,
  view % 2 === 0 ? 60 : 190,
  240 - 17 * view,
]);

type Rgb = readonly number[];
interface Shot extends Omit<Sent, 'base64'> {
  readonly rgba: Buffer;
}

/** A picture whose sample at (column, row) is what `colourAt` says. */
const picture = (
  columns: number,
  rows: number,
  colourAt: (column: number, row: number) => Rgb,
) => ({
  columns,
  rows,
  base64: Buffer.from(
    Array.from({ length: columns * rows }, (_, at) => [
      ...colourAt(at % columns, Math.floor(at / columns)),
      255,
    ]).flat(),
  ).toString('base64'),
});

const flatScene = (change: Partial<PlainScene> = {}): PlainScene => ({
  frames: colours.map((colour) => picture(30, 20, () => colour)),
  slots: colours.map((_, slot) => slot),
  ribs: 'upright',
  widthMm: 120,
  heightMm: 80,
  lenticules: 30,
  acrossStart: 0,
  acrossSpan: 30,
  ...change,
});

const viewFrom = (place: number, change: Partial<ProofView> = {}): ProofView => ({
  place,
  slide: noSlide,
  blur: sharp,
  ...change,
});

const unpack = ({ base64, ...shot }: Sent): Shot => ({
  ...shot,
  rgba: Buffer.from(base64, 'base64'),
});

const pixel = (shot: Shot, x: number, y: number): number[] =>
  Array.from(shot.rgba.subarray((y * shot.width + x) * 4, (y * shot.width + x) * 4 + 3));

const expectColour = (found: Rgb, wanted: Rgb, within: number, what: string) => {
  const off = Math.max(
    ...wanted.map((value, channel) => Math.abs(value - (found[channel] ?? 999))),
  );
  expect(off, `${what}: expected ${wanted.join()}, received ${found.join()}`).toBeLessThanOrEqual(
    within,
  );
};

/** What core/lens/mix.ts says is seen, added up in linear light (IEC 61966-2-1) and encoded. */
const mixedColour = (u: number, blur: Blur): number[] =>
  [0, 1, 2].map((channel) => {
    let light = 0;
    for (const { slot, share } of mix(u, N, blur))
      light += share * srgbToLinear((colours[slot]?.[channel] ?? NaN) / 255);
    return linearToSrgb(light) * 255;
  });

let bundle = '';
test.beforeAll(async () => {
  const result = await build({
    configFile: false,
    publicDir: false,
    logLevel: 'warn',
    build: {
      write: false,
      minify: false,
      lib: { entry: 'tests/e2e/support/tilt-harness.ts', formats: ['iife'], name: 'harness' },
    },
  });
  const [output] = Array.isArray(result) ? result : [];
  const [chunk] = output?.output ?? [];
  bundle = chunk?.code ?? '';
});

const open = async (page: Page) => {
  await page.setContent('<!doctype html><body style="margin:0"></body>');
  await page.addScriptTag({ content: bundle });
};
const show = async (
  page: Page,
  use: 'webgl' | 'canvas',
  scene: PlainScene,
  views: readonly ProofView[],
  [width, height]: readonly [number, number] = [240, 160],
): Promise<Shot[]> => {
  const shots = await page.evaluate(
    (given) =>
      window.proofBench.show(given.use, given.scene, given.views, given.width, given.height),
    { use, scene, views, width, height },
  );
  return shots.map(unpack);
};

for (const use of painters)
  test.describe(`drawn with ${use}`, () => {
    test.beforeEach(({ page }) => open(page));

    // Relations 1 and 3: an eye at x_e of the zone sees u = ½ − x_e / zone, which is view (1 − u) N.
    test('shows the views in order as the eye walks right', async ({ page }) => {
      const places = colours.map((_, view) => 0.5 - ((view + 0.5) / N - 0.5));
      const shots = await show(
        page,
        use,
        flatScene(),
        places.map((place) => viewFrom(place)),
      );
      shots.forEach((shot, view) => {
        expect(shot.kind).toBe(use);
        expect(Math.floor(viewAtPlace(places[view] ?? NaN, N))).toBe(view);
        for (const [x, y] of [
          [10, 10],
          [120, 80],
          [230, 150],
        ] as const)
          expectColour(pixel(shot, x, y), colours[view] ?? [], 1, `view ${view}`);
      });
    });

    test('mixes neighbours in linear light as core/lens/mix says', async ({ page }) => {
      const blur = { spot: 0.11, dot: 0.07 };
      const places = Array.from({ length: 40 }, (_, step) => -0.2 + (1.4 * step) / 39);
      const views = places.map((place) => viewFrom(place, { blur }));
      // Small shots: there are forty of them.
      const shots = await show(page, use, flatScene(), views, [48, 32]);
      shots.forEach((shot, index) => {
        const place = places[index] ?? NaN;
        expectColour(pixel(shot, 24, 16), mixedColour(place, blur), 1.5, `at ${place}`);
      });
    });

    test('jumps back to the first view at the end of the zone', async ({ page }) => {
      const [before, after] = await show(page, use, flatScene(), [
        viewFrom(0.001),
        viewFrom(-0.001),
      ]);
      expectColour(pixel(before as Shot, 120, 80), colours[N - 1] ?? [], 1, 'right end');
      expectColour(pixel(after as Shot, 120, 80), colours[0] ?? [], 1, 'one zone on');
    });

    test('slides the place over the print, across and along', async ({ page }) => {
      const views = [
        viewFrom(0.5, { slide: { offset: 0, across: 0.8, along: 0 } }),
        viewFrom(0.5, { slide: { offset: 0.1, across: 0, along: -0.6 } }),
      ];
      const [across, along] = await show(page, use, flatScene(), views);
      for (let rib = 0; rib < 30; rib += 1) {
        // A rib is 8 pixels wide here; its phase is that of its middle.
        const u = 0.5 + 0.8 * ((rib + 0.5) / 30 - 0.5);
        expectColour(
          pixel(across as Shot, rib * 8 + 4, 80),
          mixedColour(u, sharp),
          1,
          `rib ${rib}`,
        );
      }
      for (const y of [5, 40, 100, 155]) {
        const u = 0.6 - 0.6 * ((y + 0.5) / 160 - 0.5);
        expectColour(pixel(along as Shot, 120, y), mixedColour(u, sharp), 1, `row ${y}`);
      }
    });

    test('gives red the left eye’s luminance, green and blue the right eye’s own', async ({
      page,
    }) => {
      const left = 1 - (3 + 0.5) / N;
      const right = 1 - (5 + 0.5) / N;
      const [shot] = await show(page, use, flatScene(), [viewFrom(left, { rightPlace: right })]);
      const linear = (colours[3] ?? []).map((code) => srgbToLinear(code / 255));
      // ITU-R BT.709, luminance of linear RGB.
      const [r = NaN, g = NaN, b = NaN] = linear;
      const luminance = linearToSrgb(0.2126 * r + 0.7152 * g + 0.0722 * b) * 255;
      const wanted = [luminance, ...(colours[5] ?? []).slice(1)];
      expectColour(pixel(shot as Shot, 120, 80), wanted, 1, 'both eyes');
    });

    test('turns by rows when the ribs lie', async ({ page }) => {
      const scene = flatScene({
        ribs: 'lying',
        frames: colours.map((colour) => picture(30, 20, () => colour)),
        lenticules: 20,
        acrossSpan: 20,
      });
      const slide = { offset: 0, across: 0.8, along: 0 };
      const [shot] = await show(page, use, scene, [viewFrom(0.5, { slide })]);
      for (let rib = 0; rib < 20; rib += 1)
        for (const x of [3, 200]) {
          const u = 0.5 + 0.8 * ((rib + 0.5) / 20 - 0.5);
          expectColour(pixel(shot as Shot, x, rib * 8 + 4), mixedColour(u, sharp), 1, `rib ${rib}`);
        }
    });

    test('shows each rib even across when it is larger than a pixel', async ({ page }) => {
      const dark = (column: number) => (column % 2 === 0 ? [40, 90, 200] : [220, 160, 30]);
      const scene = flatScene({
        frames: [picture(9, 4, dark)],
        slots: Array.from({ length: N }, () => 0),
        lenticules: 9,
        acrossStart: 0.5,
        acrossSpan: 8,
      });
      const [shot] = await show(page, use, scene, [viewFrom(0.5)]);
      // 30 pixels a rib; the print begins half way into the first.
      for (let x = 0; x < 240; x += 1) {
        const position = 0.5 + (x + 0.5) / 30;
        const fromEdge = Math.abs(position - Math.round(position)) * 30;
        if (fromEdge > 0.6)
          expectColour(pixel(shot as Shot, x, 80), dark(Math.floor(position)), 1, `pixel ${x}`);
      }
    });

    // IEC 61966-2-1: linear 0.5 is code 187.516. Stripes finer than a pixel must average to it, evenly.
    test('averages ribs finer than a pixel, in linear light, without bands', async ({ page }) => {
      const stripes = picture(480, 320, (column) =>
        column % 2 === 0 ? [0, 0, 0] : [255, 255, 255],
      );
      const scene = flatScene({
        frames: [stripes],
        slots: Array.from({ length: N }, () => 0),
        lenticules: 480,
        acrossSpan: 480,
      });
      const [shot] = await show(page, use, scene, [viewFrom(0.5)], [120, 80]);
      for (let x = 4; x < 116; x += 1)
        expectColour(pixel(shot as Shot, x, 40), [188, 188, 188], 3, `pixel ${x}`);
    });

    test('keeps the print’s shape on a neutral surround', async ({ page }) => {
      const [shot] = await show(page, use, flatScene(), [viewFrom(0.5 / N)], [300, 100]);
      // 120 × 80 mm in 300 × 100 pixels: 150 wide, from 75 to 225. CIE L* 50 is sRGB code 119.
      for (const x of [0, 74, 225, 299])
        expect(pixel(shot as Shot, x, 50)).toEqual([119, 119, 119]);
      for (const x of [75, 224])
        expectColour(pixel(shot as Shot, x, 50), colours[N - 1] ?? [], 1, `${x}`);
    });

    test('shows the nearest frame that is ready where one is not', async ({ page }) => {
      const scene = flatScene();
      const frames = scene.frames.map((frame, index) => (index < 4 ? frame : null));
      const [shot, bare] = [
        ...(await show(page, use, { ...scene, frames }, [viewFrom(0.5 / N)])),
        ...(await show(page, use, { ...scene, frames: frames.map(() => null) }, [viewFrom(0.5)])),
      ];
      expectColour(pixel(shot as Shot, 120, 80), colours[3] ?? [], 1, 'nearest ready');
      expect(pixel(bare as Shot, 120, 80)).toEqual([119, 119, 119]);
    });
  });

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
    ];
    for (const size of [
      [240, 160],
      [90, 60],
    ] as const) {
      const [one, other] = [
        await show(page, 'webgl', scene, views, size),
        await show(page, 'canvas', scene, views, size),
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
    const [before] = await show(page, 'webgl', flatScene(), [viewFrom(0.3)]);
    const after = await page.evaluate(() => window.proofBench.loseContext());
    expect(unpack(after).rgba.equals(before?.rgba ?? Buffer.of())).toBe(true);
  });

  test('no screen frame is asked for while nothing turns, and one for many turns at once', async ({
    page,
  }) => {
    await show(page, 'webgl', flatScene(), [viewFrom(0.3)]);
    const asked = await page.evaluate(
      (view) => window.proofBench.framesAsked(view, 20),
      viewFrom(0.3),
    );
    expect(asked).toEqual({ still: 0, turned: 1 });
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
