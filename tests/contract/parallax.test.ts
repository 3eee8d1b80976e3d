/** Measured parallax through the real pool and worker service, from files written by libvips. */
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import type { PairMotion } from '../../src/core/frames/parallax/pair.ts';
import { measureSequence } from '../../src/calls/parallax.ts';
import { createPictureService } from '../../workers/picture-service.ts';
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

const [WIDTH, HEIGHT] = [240, 160];
/** Rough ground whose upper half moves by −0.6 px a frame and whose lower half by 0.8 px. */
const frame = async (index: number, right = 0) => {
  const data = new Uint16Array(WIDTH * HEIGHT * 3);
  for (let y = 0; y < HEIGHT; y += 1)
    for (let x = 0; x < WIDTH; x += 1) {
      const moved = x - right - (y < HEIGHT / 2 ? -0.6 : 0.8) * index;
      let sum = 0;
      for (let i = 0; i < 9; i += 1) {
        const k = (2 * Math.PI) / (6 + 3.1 * i);
        sum += Math.sin(k * (moved * Math.cos(2.4 * i) + y * Math.sin(2.4 * i)) + 1.7 * i);
      }
      data.fill(32000 + 3000 * sum, (y * WIDTH + x) * 3, (y * WIDTH + x) * 3 + 3);
    }
  const png = await sharp(data, { raw: { width: WIDTH, height: HEIGHT, channels: 3 } })
    .toColourspace('rgb16')
    .png()
    .toBuffer();
  const name = `ground_${index}.png`;
  return { key: name, name, file: new Blob([Uint8Array.from(png)]) };
};
const settings = {
  options: { exposureStops: 0 },
  ribs: 'upright',
  widthPx: WIDTH,
  heightPx: HEIGHT,
} as const;

describe('measuring a sequence', () => {
  it('tells of every pair coarsely, finely and through all, and ends at the motion made', async () => {
    const frames = await Promise.all([0, 1, 2, 3, 4].map((index) => frame(index)));
    const last = new Map<number, PairMotion>();
    const told: string[] = [];
    let progress = [0, 0];
    const outcome = await measureSequence(frames, settings, {
      signal: new AbortController().signal,
      onPair: (index, motion, fine) => {
        told.push(`${index} ${fine ? 'fine' : 'coarse'}`);
        if (fine) last.set(index, motion);
      },
      onProgress: (done, total) => (progress = [done, total]),
    });
    expect(outcome.done).toBe(true);
    for (const index of [0, 1, 2, 3]) {
      expect(told.filter((one) => one === `${index} coarse`)).toHaveLength(1);
      expect(told.filter((one) => one === `${index} fine`)).toHaveLength(2);
      const { columns, shift } = last.get(index) as PairMotion;
      const right = [...shift].map((share, at) => {
        if (Number.isNaN(share)) return undefined;
        const upper = Math.floor(at / columns) < HEIGHT / 16;
        return Math.abs(share * WIDTH - (upper ? -0.6 : 0.8)) < 0.05;
      });
      const known = right.filter((one) => one !== undefined);
      expect(known.length).toBeGreaterThan(400);
      expect(known.filter(Boolean).length / known.length).toBeGreaterThan(0.95);
    }
    expect(progress[0]).toBe(progress[1]);
  });

  it('measures placed pictures as they lie: what a place makes up for is no motion', async () => {
    // Two frames at rest, the second shot 7 px further right and laid back by its place.
    const [first, second] = await Promise.all([frame(0), frame(0, 7)]);
    const area = { left: 0, top: 0, width: WIDTH, height: HEIGHT };
    const motionWith = async (laid: object) => {
      let motion: PairMotion | undefined;
      const frames = [first, { ...second, key: 'shot further right', ...laid }];
      await measureSequence(frames, settings, {
        signal: new AbortController().signal,
        onPair: (_, found, fine) => {
          if (fine) motion = found;
        },
        onProgress: () => undefined,
      });
      const known = [...(motion as PairMotion).shift].filter((share) => !Number.isNaN(share));
      return known.sort((a, b) => a - b)[known.length >> 1]! * WIDTH;
    };
    expect(await motionWith({})).toBeCloseTo(7, 0);
    const toFrame = { a: 1, b: 0, x0: 7, y0: 0 };
    expect(Math.abs(await motionWith({ laid: { ...area, toFrame } }))).toBeLessThan(0.1);
  });

  it('stops when asked, and says of a file that is no picture which it was', async () => {
    const frames = await Promise.all([0, 1, 2].map(frame));
    const halt = new AbortController();
    halt.abort();
    const quiet = { onPair: () => undefined, onProgress: () => undefined };
    const stopped = await measureSequence(frames, settings, { signal: halt.signal, ...quiet });
    expect(stopped.done).toBe(false);
    const broken = { key: 'x', name: 'notes.png', file: new Blob(['no picture']) };
    await expect(
      measureSequence([frames[0]!, broken], settings, {
        signal: new AbortController().signal,
        ...quiet,
      }),
    ).rejects.toThrow(/notes\.png/);
  });
});
