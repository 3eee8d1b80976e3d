/** What the tilt proof shows of plain scenes, pixel by pixel, and what core/lens/mix.ts says that it should. */
import type { Page } from 'playwright/test';
import { expect } from 'playwright/test';
import { build } from 'vite';
import { linearToSrgb, srgbToLinear } from '../../../src/core/colour/srgb.ts';
import type { Blur } from '../../../src/core/lens/mix.ts';
import { mix } from '../../../src/core/lens/mix.ts';
import type { ProofView, Slide } from '../../../src/core/proof/scene.ts';
import { kernelsPlugin } from '../../settings/kernels.mjs';
import type { PainterKind, PlainScene, Shot as Sent } from './tilt-harness.ts';

export const N = 12;
const noSlide: Slide = { offset: 0, across: 0, along: 0 };
export const sharp: Blur = { spot: 0, dot: 0 };

/** Twelve colours far enough apart to tell one view from the next. */
export const colours = Array.from({ length: N }, (_, view) => [
  20 + 19 * view,
  view % 2 === 0 ? 60 : 190,
  240 - 17 * view,
]);

type Rgb = readonly number[];
export interface Shot extends Omit<Sent, 'base64'> {
  readonly rgba: Buffer;
}

/** A picture whose sample at (column, row) is what `colourAt` says. */
export const picture = (
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

export const flatScene = (change: Partial<PlainScene> = {}): PlainScene => ({
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

export const viewFrom = (place: number, change: Partial<ProofView> = {}): ProofView => ({
  place,
  slide: noSlide,
  blur: sharp,
  ...change,
});

export const unpack = ({ base64, ...shot }: Sent): Shot => ({
  ...shot,
  rgba: Buffer.from(base64, 'base64'),
});

export const pixel = (shot: Shot, x: number, y: number): number[] =>
  Array.from(shot.rgba.subarray((y * shot.width + x) * 4, (y * shot.width + x) * 4 + 3));

export const expectColour = (found: Rgb, wanted: Rgb, within: number, what: string) => {
  const off = Math.max(
    ...wanted.map((value, channel) => Math.abs(value - (found[channel] ?? 999))),
  );
  expect(off, `${what}: expected ${wanted.join()}, received ${found.join()}`).toBeLessThanOrEqual(
    within,
  );
};

/** What core/lens/mix.ts says is seen, added up in linear light (IEC 61966-2-1) and encoded. */
export const mixedColour = (u: number, blur: Blur): number[] =>
  [0, 1, 2].map((channel) => {
    let light = 0;
    for (const { slot, share } of mix(u, N, blur))
      light += share * srgbToLinear((colours[slot]?.[channel] ?? NaN) / 255);
    return linearToSrgb(light) * 255;
  });

let bundle = '';
/** The harness as one script, before the tests of a file. */
export const bundleHarness = async () => {
  const result = await build({
    configFile: false,
    plugins: [kernelsPlugin()],
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
};

export const open = async (page: Page) => {
  await page.setContent('<!doctype html><body style="margin:0"></body>');
  await page.addScriptTag({ content: bundle });
};
export const show = async (
  page: Page,
  use: PainterKind,
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
