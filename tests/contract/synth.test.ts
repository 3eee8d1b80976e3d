/** Views and in-betweens through the real pool and worker service, from files written by libvips. */
import sharp from 'sharp';
import { ssim } from 'ssim.js';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import type { DepthScene } from '../../src/contract/synth.ts';
import type { DepthMeaning } from '../../src/core/frames/synth/depth-map.ts';
import { makeBetweens, makeView, makeViews, readFilled } from '../../src/calls/synth.ts';
import { createPictureService } from '../../workers/picture-service.ts';
import { depthFile, frameName, framePath } from './glasshouse-files.ts';
import { InProcessWorker } from './in-process-worker.ts';

beforeAll(() => {
  vi.stubGlobal(
    'Worker',
    class extends InProcessWorker {
      constructor() {
        super(createPictureService());
      }
    },
  );
});
afterAll(() => vi.unstubAllGlobals());

/** The same codes in 16 bits, which are read without a browser. */
const frame = async (view: number) => {
  const { data, info } = await sharp(framePath(view))
    .removeAlpha()
    .toColourspace('srgb')
    .raw()
    .toBuffer({ resolveWithObject: true });
  const deep = Uint16Array.from(data, (code) => 257 * code);
  const png = await sharp(deep, { raw: { width: info.width, height: info.height, channels: 3 } })
    .toColourspace('rgb16')
    .png({ compressionLevel: 1 })
    .toBuffer();
  const name = frameName(view);
  return { key: name, name, file: new Blob([Uint8Array.from(png)]) };
};

// demo-scenes/glasshouse/scene.json: cameras 0.895871 mm apart, 400 mm from a print 203.2 mm wide,
// depth black at −140 mm, white at 360 mm.
const STEP = 0.895871 / 203.2;
const meaning: DepthMeaning = { kind: 'near-black', nearest: -140, farthest: 360 };

const sceneOf = async (view: number): Promise<DepthScene> => ({
  picture: await frame(view),
  depth: depthFile(view),
  options: { exposureStops: 0 },
  meaning,
  distance: 400,
  keyZ: 0,
  mostSlide: 6 * STEP,
  mostPx: 0,
});

interface Picture {
  readonly width: number;
  readonly height: number;
  readonly data: Uint8ClampedArray<ArrayBuffer>;
}
const rgba = async (file: Buffer | string): Promise<Picture> => {
  const { data, info } = await sharp(file)
    .toColourspace('srgb')
    .ensureAlpha()
    .raw()
    .toBuffer({ resolveWithObject: true });
  return { width: info.width, height: info.height, data: Uint8ClampedArray.from(data) };
};
const read = async (file: Blob) => rgba(Buffer.from(await file.arrayBuffer()));

/** Peak signal to noise of the colours, dB, of 8-bit codes. */
const psnr = (a: Picture, b: Picture): number => {
  let sum = 0;
  for (let i = 0; i < a.data.length; i += 1) sum += ((a.data[i] ?? 0) - (b.data[i] ?? 0)) ** 2;
  return 10 * Math.log10(255 ** 2 / (sum / ((a.data.length * 3) / 4)));
};
/** Structural likeness by an independent port of Wang et al., IEEE TIP 13(4), 2004. */
const likeness = (a: Picture, b: Picture): number => ssim(a, b, { downsample: false }).mssim;

const call = () => ({ signal: new AbortController().signal, report: () => undefined });

describe('views from one render and its depth map', () => {
  it('come nearer to the true renders than the held picture does, out to the ends of the row @wider', async () => {
    const shares: number[] = [];
    const views = [1, 4, 9, 12];
    const outcome = await makeViews(
      await sceneOf(6),
      views.map((view) => (view - 6) * STEP),
      { ...call(), report: (done) => shares.push(done) },
    );
    if (!outcome.done) throw new Error('stopped');
    expect(shares).toEqual([0, 1, 2, 3, 4]);
    const held = await rgba(framePath(6));
    for (const [index, view] of views.entries()) {
      const made = await read((outcome.value[index] as { file: Blob }).file);
      const truth = await rgba(framePath(view));
      const figures = {
        view,
        psnr: psnr(made, truth),
        heldPsnr: psnr(held, truth),
        ssim: likeness(made, truth),
        heldSsim: likeness(held, truth),
        invented: outcome.value[index]?.invented ?? 1,
      };
      console.info('made view against its render', figures);
      // Held, everything off the key plane stands wrong; made, only what was hidden is invented and
      // the rest is resampled once. So at least half of what is wrong must be gone: 3 dB.
      expect(figures.psnr).toBeGreaterThan(figures.heldPsnr + 3);
      expect(1 - figures.ssim).toBeLessThan((1 - figures.heldSsim) / 2);
      // The scene is full of leaves and glazing bars, yet most of it is seen from both places.
      expect(figures.invented).toBeGreaterThan(0);
      expect(figures.invented).toBeLessThan(0.25);
    }
  });

  it('keep where they were filled as a grey picture, to the number, and by it the share', async () => {
    const outcome = await makeView({ ...(await sceneOf(6)), slide: 6 * STEP }, call().signal);
    if (!outcome.done) throw new Error('stopped');
    const { filled, filledFile, invented } = outcome.value;
    const png = sharp(Buffer.from(await filledFile.arrayBuffer()));
    expect(await png.metadata()).toMatchObject({ format: 'png', space: 'b-w', channels: 1 });
    const { data, info } = await png
      .toColourspace('b-w')
      .raw()
      .toBuffer({ resolveWithObject: true });
    // The demo's frames of 600 × 750 are 512 × 640 with a longest side of 640.
    expect(info).toMatchObject({ width: 512, height: 640, channels: 1 });
    expect(data.equals(filled.holes)).toBe(true);
    expect(data.reduce((sum, share) => sum + share, 0) / 255 / data.length).toBeCloseTo(
      invented,
      3,
    );
    const back = await readFilled(filledFile, 'filled.png', call().signal);
    expect(back).toEqual({ done: true, value: { columns: 512, rows: 640, holes: filled.holes } });
  });

  it('tell no filled places from a file that holds none', async () => {
    const { file } = await frame(6);
    await expect(readFilled(file, 'odd.png', call().signal)).rejects.toThrow(
      /"odd\.png" is not an 8-bit grey picture/,
    );
    const cut = new Blob(['\x89PNG']);
    await expect(readFilled(cut, 'cut.png', call().signal)).rejects.toThrow(/cut\.png/);
  });

  it('of the picture’s own camera are the picture, to the code', async () => {
    const outcome = await makeView({ ...(await sceneOf(6)), slide: 0 }, call().signal);
    if (!outcome.done) throw new Error('stopped');
    expect(outcome.value.invented).toBe(0);
    expect(psnr(await read(outcome.value.file), await rgba(framePath(6)))).toBe(Infinity);
  });

  it('are refused with a depth map of another shape, both files and sizes named', async () => {
    const file = await sharp({
      create: { width: 64, height: 48, channels: 3, background: 'grey' },
    })
      .toColourspace('b-w')
      .png()
      .toBuffer();
    const depth = { key: 'odd', name: 'hut_z.png', file: new Blob([Uint8Array.from(file)]) };
    const scene = await sceneOf(6);
    await expect(makeView({ ...scene, depth, slide: 0.01 }, call().signal)).rejects.toThrow(
      /"hut_z\.png" is 64 × 48 pixels, the picture "glasshouse_06\.png" 600 × 750.*shapes differ/s,
    );
    const twisted: DepthMeaning = { kind: 'near-white', nearest: 5, farthest: -5 };
    await expect(
      makeView({ ...scene, meaning: twisted, slide: 0.01 }, call().signal),
    ).rejects.toThrow(/nearest depth must be below the farthest/);
  });

  it('can be stopped, which is an outcome', async () => {
    const halt = new AbortController();
    const outcome = await makeViews(await sceneOf(7), [0.01, 0.02, 0.03], {
      signal: halt.signal,
      report: (done) => done === 1 && halt.abort(),
    });
    expect(outcome.done).toBe(false);
  });
});

describe('frames between two neighbours', () => {
  it('come nearer to the render that stood there than either neighbour and than their mean', async () => {
    const [first, second] = [await frame(5), await frame(7)];
    const pair = { first, second, options: { exposureStops: 0 } };
    const outcome = await makeBetweens(pair, [0.5], call());
    if (!outcome.done) throw new Error('stopped');
    const truth = await rgba(framePath(6));
    const [left, right] = [await rgba(framePath(5)), await rgba(framePath(7))];
    const mean = { ...left, data: left.data.map((code, i) => (code + (right.data[i] ?? 0)) / 2) };
    const made = await read((outcome.value[0] as { file: Blob }).file);
    console.info('frame between against its render', {
      psnr: psnr(made, truth),
      neighbour: psnr(left, truth),
      mean: psnr(mean, truth),
      ssim: likeness(made, truth),
      neighbourSsim: likeness(left, truth),
      meanSsim: likeness(mean, truth),
    });
    const kept = outcome.value[0]?.filled;
    expect(kept).toMatchObject({ columns: 512, rows: 640 });
    const share = kept!.holes.reduce((sum, one) => sum + one, 0) / 255 / kept!.holes.length;
    expect(share).toBeCloseTo(outcome.value[0]?.invented ?? 1, 3);
    expect(psnr(made, truth)).toBeGreaterThan(Math.max(psnr(left, truth), psnr(right, truth)) + 3);
    expect(likeness(made, truth)).toBeGreaterThan(likeness(mean, truth));
  });

  it('are refused between frames of two sizes', async () => {
    const first = await frame(5);
    const file = await sharp(framePath(7)).resize(300).toColourspace('rgb16').png().toBuffer();
    const second = { key: 's', name: 'small.png', file: new Blob([Uint8Array.from(file)]) };
    await expect(
      makeBetweens({ first, second, options: { exposureStops: 0 } }, [0.5], call()),
    ).rejects.toThrow(/"small\.png" 300 × 375: frames can be made only between two of one size/);
  });
});
