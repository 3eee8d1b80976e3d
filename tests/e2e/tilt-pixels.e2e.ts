/** What the tilt proof shows with each painter, pixel by pixel, against the relations of docs/optics.md. */
import { expect, test } from './support/any-visit.ts';
import { linearToSrgb, srgbToLinear } from '../../src/core/colour/srgb.ts';
import { viewAtPlace } from '../../src/core/lens/lens.ts';
import type { Shot } from './support/tilt-shots.ts';
import {
  bundleHarness,
  colours,
  expectColour,
  flatScene,
  mixedColour,
  N,
  open,
  picture,
  pixel,
  sharp,
  show,
  viewFrom,
} from './support/tilt-shots.ts';

test.beforeAll(bundleHarness);

const painters = ['card', 'processor'] as const;

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
