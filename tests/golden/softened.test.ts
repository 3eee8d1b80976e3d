/**
 * What softening is for: a scene twice too deep, seen through the lens bench from between two
 * cameras, shows its edges double; softened, they stand single. The edge is slanted, so that the rows
 * sample it at every phase, as in the slanted-edge method of ISO 12233.
 */
import { describe, expect, test } from 'vitest';
import type { ReducedFrame } from '../../src/core/weave/reduce.ts';
import { softenFrame } from '../../src/core/weave/soften.ts';
import type { Seen } from './lens-bench.ts';
import type { Job } from './press.ts';
import {
  cameraStepMm,
  framesOf,
  inspector,
  jobOf,
  lensInFocus,
  pitchFor,
  printOf,
  weaveSheet,
} from './press.ts';

const base = jobOf({
  lens: lensInFocus(60, 0.3),
  distanceMm: 400,
  dpi: 720,
  views: 12,
  depthMm: 1,
});
/** Lenticules a view: twice what stays sharp. Relation 6, s = Δ z / (D + z), solved for z. */
const STEP = 2;
const part = (STEP * base.lens.pitchMm) / cameraStepMm(base);
const zMm = (base.distanceMm * part) / (1 - part);
const SLANT = 0.35;
const EDGE_EVERY_MM = 9.3;
/** Dark and light stripes, 9.3 mm each, on one slanted plane. */
const offEdge = (x: number, y: number) => {
  const along = (x - SLANT * y) / EDGE_EVERY_MM;
  const nearest = Math.round(along);
  return { mm: (along - nearest) * EDGE_EVERY_MM, rises: nearest % 2 === 0 };
};
const job: Job = {
  ...base,
  scene: [
    {
      zMm,
      covers: () => true,
      colour: (x, y) => {
        const { mm, rises } = offEdge(x, y);
        const light = mm > 0 === rises ? 0.8 : 0.1;
        return [light, light, light];
      },
    },
  ],
};

interface Look {
  readonly single: number;
  readonly psnrDb: number;
}

const softened = (frames: readonly ReducedFrame[], strength: number): ReducedFrame[] =>
  frames.map((frame) => {
    const copy = { ...frame, pixels: frame.pixels.slice() };
    const steps = Float32Array.of(STEP);
    const map = { columns: 1, rows: 1, placeWidth: 1, placeHeight: 1, steps };
    const area = { left: 0, top: 0, width: 100, height: 10 };
    const laid = { sheet: job.sheet, area, widthPx: 100, heightPx: 10 };
    const work = softenFrame(copy, laid, { strength, map });
    while (work.next().done !== true);
    return copy;
  });

/** Light over the distance from the edge, in quarter lenticules from −6 to 6, rising edges only. */
const edgeProfile = (seen: Seen, own: number): number[] => {
  const pitch = pitchFor(job.lens, job.distanceMm);
  const eye = own * cameraStepMm(job);
  const heightMm = (job.sheet.heightDots * 25.4) / job.sheet.alongDpi;
  const scale = (job.distanceMm + zMm) / job.distanceMm;
  const sums = new Float64Array(49);
  const counts = new Float64Array(49);
  for (let line = 0; line < seen.lines; line += 1)
    for (let rib = 0; rib < seen.ribs; rib += 1) {
      const keyX = (seen.firstRib + rib) * pitch;
      const keyY = ((line + 0.5) / seen.lines - 0.5) * heightMm;
      const { mm, rises } = offEdge(eye + (keyX - eye) * scale, keyY * scale);
      const bin = Math.round((4 * mm) / scale / pitch) + 24;
      if (!rises || bin < 0 || bin > 48) continue;
      sums[bin]! += seen.light[(line * seen.ribs + rib) * 3 + 1]!;
      counts[bin]! += 1;
    }
  return Array.from(sums, (sum, bin) => sum / counts[bin]!);
};

/** How steep the profile is in the middle of the edge against where it is steepest: 1 for a single edge. */
const singleness = (profile: readonly number[]): number => {
  const steep = (bin: number) => profile[bin + 2]! - profile[bin - 2]!;
  const all = Array.from({ length: 41 }, (_, i) => steep(i + 4));
  return steep(24) / Math.max(...all);
};

describe('a scene twice too deep', () => {
  const frames = framesOf(job);
  const look = inspector(job);
  const seenAt = (strength: number, own: number) => {
    const print = printOf(job.sheet, weaveSheet(job.sheet, softened(frames, strength)));
    return look(print, own);
  };

  test.each([-2, 0, 1])(
    'seen %i camera steps off centre, edges double; softened they do not',
    (own) => {
      const [hard, half, soft] = [0, 0.5, 1].map((strength) => {
        const { seen, psnrDb } = seenAt(strength, own);
        return { single: singleness(edgeProfile(seen, own)), psnrDb };
      }) as [Look, Look, Look];
      // Unsoftened the edge stops half way (it rises at 0.14 of its steepest); softened it goes on (0.57).
      expect(hard.single).toBeLessThan(0.2);
      expect(half.single).toBeGreaterThan(1.5 * hard.single);
      expect(soft.single).toBeGreaterThan(0.5);
      // And it is no further from what a camera at the eye would take: nothing shown was lost for it.
      expect(soft.psnrDb).toBeGreaterThan(hard.psnrDb);
    },
  );
});
