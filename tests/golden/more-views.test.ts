/**
 * More true views than dots: the same sheet of 12.02 dots under a rib, woven from 12, 24 or 48 views of the garden
 * scene over one zone, and looked at through the bench's ray trace. What is gained and what is not stands in the
 * advice on frame counts (src/core/plan/frame-advice), in the verdict and in the guide.
 */
import { describe, expect, test } from 'vitest';
import type { ReducedFrame } from '../../src/core/weave/reduce.ts';
import { framesOf, jobOf, lensInFocus, printOf, psnrOf, weaveSheet } from './press.ts';

/** 60 to the inch, 0.8227 mm, n 1.57, its radius in focus: R = t (n − 1) / n. */
const lens = lensInFocus(60, (0.8227 * 0.57) / 1.57);
const DOTS = 12;
type Columns = 'blended' | 'crisp';

const jobFor = (views: number, columns: Columns, depthMm: number) =>
  jobOf({
    lens,
    distanceMm: 450,
    dpi: 720,
    views,
    depthMm,
    sheet: { columns, heightDots: 12 },
  });

/** Frames do not depend on how columns are shared, and take most of the time. */
const kept = new Map<string, ReducedFrame[]>();
const viewsOf = (views: number, depthMm: number): ReducedFrame[] => {
  const key = `${views}:${depthMm}`;
  const frames = kept.get(key) ?? framesOf(jobFor(views, 'blended', depthMm));
  kept.set(key, frames);
  return frames;
};

/** As many frames mixed from neighbours of the twelve, each at its own place in the row. */
const crossfades = (count: number, depthMm: number): ReducedFrame[] => {
  const twelve = viewsOf(DOTS, depthMm);
  return Array.from({ length: count }, (_, i) => {
    const at = Math.min(DOTS - 1, Math.max(0, ((i + 0.5) * DOTS) / count - 0.5));
    const [a, b] = [twelve[Math.floor(at)]!, twelve[Math.ceil(at)]!];
    const part = at % 1;
    const pixels = a.pixels.map((value, k) => Math.round((1 - part) * value + part * b.pixels[k]!));
    return { ...a, pixels };
  });
};

/** Mean of what eyes see, dB; eyes in steps of the twelve cameras. */
const seenDb = (
  frames: readonly ReducedFrame[],
  columns: Columns,
  depthMm: number,
  eyes = [-1, 1.5],
) => {
  const job = jobFor(frames.length, columns, depthMm);
  const print = printOf(job.sheet, weaveSheet(job.sheet, frames));
  const steps = frames.length / DOTS;
  return eyes.reduce((sum, own) => sum + psnrOf(job, print, own * steps), 0) / eyes.length;
};

describe('a depth picture woven from more views than dots', () => {
  test('is a little sharper, most of all with crisp columns; crossfades add nothing', () => {
    const gain = (columns: Columns) =>
      seenDb(viewsOf(24, 4), columns, 4) - seenDb(viewsOf(DOTS, 4), columns, 4);
    expect(gain('blended')).toBeGreaterThan(0.2);
    expect(gain('crisp')).toBeGreaterThan(0.8);
    expect(seenDb(crossfades(24, 4), 'blended', 4)).toBeLessThan(
      seenDb(viewsOf(DOTS, 4), 'blended', 4) + 0.05,
    );
  });

  test.each([2, 4])(
    'never loses by them, in %i mm of depth: 24 and 48 views, five eyes @wider',
    (depthMm) => {
      const eyes = [-2.5, -1, 0, 1.5, 3];
      for (const columns of ['blended', 'crisp'] as const) {
        const [own, twice, fourfold] = [DOTS, 24, 48].map((views) =>
          seenDb(viewsOf(views, depthMm), columns, depthMm, eyes),
        ) as [number, number, number];
        expect(twice - own).toBeGreaterThan(columns === 'crisp' ? 0.8 : 0.05);
        expect(fourfold).toBeGreaterThan(twice - 0.05);
      }
    },
  );
});
