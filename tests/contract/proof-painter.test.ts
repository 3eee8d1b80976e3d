/** The tilt proof's painter without a graphics card, pixel by pixel, against sums written out here. */
import { describe, expect, it } from 'vitest';
import { linearToSrgb, srgbToLinear } from '../../src/core/colour/srgb.ts';
import { mix } from '../../src/core/lens/mix.ts';
import type { Picture, ProofScene, ProofView } from '../../src/core/proof/scene.ts';
import { noSlide } from '../../src/core/proof/scene.ts';
import { createProcessorPainter } from '../../workers/proof/processor-painter.ts';
import { randomOf } from '../bench/shared/random.mjs';

const random = randomOf(4711);

const noise = (columns: number, rows: number): Picture => ({
  columns,
  rows,
  pixels: Uint8Array.from({ length: columns * rows * 4 }, (_, at) =>
    at % 4 === 3 ? 255 : Math.floor(random() * 256),
  ),
});

/** Pictures with a sample for each lenticule and each pixel along: nothing is averaged or interpolated. */
const sceneOf = (
  ribs: ProofScene['ribs'],
  slots: number,
  lenticules: number,
  alongPx: number,
): ProofScene => ({
  frames: Array.from({ length: slots }, () =>
    ribs === 'upright' ? noise(lenticules, alongPx) : noise(alongPx, lenticules),
  ),
  slots: Array.from({ length: slots }, (_, slot) => slot),
  ribs,
  widthMm: ribs === 'upright' ? lenticules * 5 : alongPx,
  heightMm: ribs === 'upright' ? alongPx : lenticules * 5,
  lenticules,
  acrossStart: 0,
  acrossSpan: lenticules,
});

/** Linear light 0 … 1 of what an eye at `place` sees through the middle of a rib. */
const seenAt = (scene: ProofScene, view: ProofView, place: number, rib: number, along: number) => {
  const fromMiddle = (rib + 0.5) / scene.acrossSpan - 0.5;
  const alongPx = scene.ribs === 'upright' ? scene.heightMm : scene.widthMm;
  const { offset, across, along: slide } = view.slide;
  const u = place + offset + across * fromMiddle + slide * ((along + 0.5) / alongPx - 0.5);
  const light = [0, 0, 0];
  for (const { slot, rib: away, share } of mix(u, scene.slots.length, view.blur)) {
    const { pixels, columns } = scene.frames[slot] as Picture;
    const at = Math.min(scene.lenticules - 1, Math.max(0, rib + away));
    const [x, y] = scene.ribs === 'upright' ? [at, along] : [along, at];
    for (let c = 0; c < 3; c += 1)
      light[c]! += share * srgbToLinear(pixels[(y * columns + x) * 4 + c]! / 255);
  }
  return light;
};

const views: readonly ProofView[] = [
  { place: 0.31, slide: noSlide, blur: { spot: 0, dot: 0 } },
  { place: 0.52, slide: noSlide, blur: { spot: 0.14, dot: 0.09 } },
  { place: 0.97, slide: { offset: 0.2, across: 0.7, along: 0 }, blur: { spot: 0.1, dot: 0.1 } },
  { place: 0.4, rightPlace: 0.55, slide: noSlide, blur: { spot: 0.2, dot: 0.05 } },
];

describe.each(['upright', 'lying'] as const)('with %s ribs', (ribs) => {
  // Five pixels a lenticule: the middle one sees its own rib alone.
  const scene = sceneOf(ribs, 7, 13, 9);
  const size = { width: scene.widthMm, height: scene.heightMm };
  const painter = createProcessorPainter((print) => print);

  it.each(views)('each rib shows what the lens mixes, from place $place', (view) => {
    painter.load(scene);
    const print = painter.paint(view, size);
    if (print === undefined) throw new Error('Nothing was drawn.');
    expect([print.left, print.top, print.width, print.height]).toEqual([
      0,
      0,
      size.width,
      size.height,
    ]);
    for (let rib = 0; rib < 13; rib += 1)
      for (let along = 0; along < 9; along += 1) {
        const light = seenAt(scene, view, view.place, rib, along);
        if (view.rightPlace !== undefined) {
          const [red = 0, green = 0, blue = 0] = light;
          const right = seenAt(scene, view, view.rightPlace, rib, along);
          // ITU-R BT.709: what a red glass lets through of the left eye's view.
          light.splice(0, 3, 0.2126 * red + 0.7152 * green + 0.0722 * blue, right[1]!, right[2]!);
        }
        const [x, y] = ribs === 'upright' ? [rib * 5 + 2, along] : [along, rib * 5 + 2];
        const from = (y * size.width + x) * 4;
        const found = [...print.pixels.subarray(from, from + 4)];
        light.forEach((value, c) =>
          expect(Math.abs(found[c]! - linearToSrgb(value) * 255)).toBeLessThan(0.7),
        );
        expect(found[3]).toBe(255);
      }
  });

  it('a slide along the ribs moves the views by no more than a twentieth of one too little', () => {
    const view: ProofView = {
      place: 0.5,
      slide: { offset: 0, across: 0, along: 0.9 },
      blur: { spot: 0.3, dot: 0.2 },
    };
    painter.load(scene);
    const print = painter.paint(view, size);
    for (let along = 0; along < 9; along += 1) {
      const light = seenAt(scene, view, view.place, 6, along);
      const [x, y] = ribs === 'upright' ? [32, along] : [along, 32];
      const found = print?.pixels[(y * size.width + x) * 4 + 1] ?? NaN;
      expect(Math.abs(found - linearToSrgb(light[1]!) * 255)).toBeLessThan(3);
    }
  });
});

describe('before the first picture has come', () => {
  it('nothing is drawn', () => {
    const painter = createProcessorPainter((print) => print);
    const scene = { ...sceneOf('upright', 3, 4, 4), frames: [undefined, undefined, undefined] };
    painter.load(scene);
    expect(painter.paint(views[0] as ProofView, { width: 20, height: 4 })).toBeUndefined();
  });
});
