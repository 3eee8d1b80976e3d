/** Which view the tilt proof shows at each place of the print, against a trace that shares nothing with src. */
import { describe, expect, it } from 'vitest';
import type { Job } from '../../../src/job/schema/job.ts';
import { newJob } from '../../../src/job/schema/job.ts';
import { zoneWidth } from '../../../src/core/lens/traced.ts';
import { mm } from '../../../src/core/units/units.ts';
import { lensOf } from '../../../src/job/facts/sheet.ts';
import { driftAt } from '../../../src/core/proof/scene.ts';
import { proofViewOf } from '../../../src/studio/proof/proof-scene.ts';
import { landsObliquely } from '../../golden/oblique.ts';
import { benchPitch } from '../../golden/traced-by-bench.ts';

/** The everyday sheet: 60 LPI, 0.84 mm, 8 × 10 in at 400 mm, 12 views. */
const job = newJob();

/** u by the bench: the landing, from the left edge of what was woven for that rib. */
const traced = ({ lens, print }: Job, rib: number, alongMm: number, eyeMm: number): number => {
  const bench = {
    ...lens,
    radiusMm: (lens.thicknessMm * (lens.index - 1)) / lens.index,
  };
  const woven = benchPitch(bench, print.viewingDistanceMm);
  const crest = rib * lens.pitchMm;
  const lands = landsObliquely(bench, eyeMm - crest, alongMm, print.viewingDistanceMm);
  return 0.5 + (crest + lands - rib * woven) / woven;
};

/** The largest difference in view slots over edges, corners and between. */
const worst = (of: Job, eyeMm: number, shown: (x: number, y: number) => number) => {
  let most = 0;
  const [acrossMm, alongMm] =
    of.ribs === 'upright'
      ? [of.print.widthMm, of.print.heightMm]
      : [of.print.heightMm, of.print.widthMm];
  for (const x of [-0.5, -0.36, -0.2, 0, 0.2, 0.36, 0.5])
    for (const y of [0, 0.15, 0.3, 0.5]) {
      const rib = Math.round((x * acrossMm) / of.lens.pitchMm);
      const at = (rib * of.lens.pitchMm) / acrossMm;
      const u = traced(of, rib, y * alongMm, eyeMm);
      most = Math.max(most, of.viewSlots * Math.abs(shown(at, y) - u));
    }
  return most;
};

describe.each(['upright', 'lying'] as const)('the tilt proof, ribs %s', (ribs) => {
  const of: Job = { ...job, ribs };
  const zone = zoneWidth(lensOf(of), mm(of.print.viewingDistanceMm));

  it.each([-1, -0.4, 0, 0.7, 1])(
    'at tilt %d shows each place to a hundredth of a view slot',
    (tilt) => {
      const { place, drift } = proofViewOf(of, tilt, false);
      const off = worst(of, (tilt / 2) * zone, (x, y) => place + driftAt(drift, x, 0.5 + y));
      expect(off).toBeLessThan(0.01);
    },
  );
});

describe('both eyes', () => {
  it('each see their own', () => {
    const zone = zoneWidth(lensOf(job), mm(400));
    const { place, drift, rightPlace, rightDrift } = proofViewOf(job, 0.5, true);
    const left = worst(job, zone / 4 - 31.5, (x, y) => place + driftAt(drift, x, 0.5 - y));
    expect(left).toBeLessThan(0.01);
    const right = worst(
      job,
      zone / 4 + 31.5,
      (x, y) => rightPlace! + driftAt(rightDrift, x, 0.5 - y),
    );
    expect(right).toBeLessThan(0.01);
  });
});
