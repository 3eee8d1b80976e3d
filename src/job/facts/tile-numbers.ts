/** Figures of a split: its size, and how exact the tiles must be (optics relations 1, 7). */
import { gapAhead } from '../../core/lens/traced.ts';
import { tolerance } from '../../core/plan/tolerance.ts';
import type { Tiling } from '../../core/sheet/tiles.ts';
import { mm } from '../../core/units/units.ts';
import type { Job } from '../schema/job.ts';
import { exactnessOf } from './plan.ts';
import { acrossMm, lensOf, printedLensPitch } from './sheet.ts';
import { zonesOff } from './tiles.ts';

export const tileNumbers = (job: Job, tiling: Tiling) => {
  const pitchMm = printedLensPitch(job);
  const { budgetZones } = exactnessOf(job);
  const upright = job.ribs === 'upright';
  const line = tiling.tiles.filter(({ row, column }) => (upright ? row : column) === 0);
  const ribs = line.reduce((sum, { across }) => sum + across.ribs, 0);
  const widestMm = mm(tiling.mostRibs * pitchMm);
  const exact = tolerance(budgetZones, pitchMm, widestMm, mm(tiling.longestMm));
  return {
    sheets: tiling.tiles.length,
    ribs,
    /** The assembled whole across its ribs, and how much of the print is lost there on both sides. */
    assembledMm: mm(ribs * pitchMm),
    fallsAwayMm: mm(acrossMm(job) - ribs * pitchMm),
    pitchMm,
    budgetZones,
    /** How exactly two neighbours must agree in how print and lens lie: τ p. */
    agreeMm: exact.centringMm,
    /** Each tile by itself: half of that. */
    eachMm: mm(exact.centringMm / 2),
    /** ΔLPI ≤ τ / W of the widest tile, because each tile is aligned at its own middle. */
    pitchLpi: exact.pitchLpi,
    widestMm,
    /** Zones by which a gap of one whole rib between two lenses changes what is seen: g₀ / D. */
    gapZones: gapAhead(lensOf(job)) / job.print.viewingDistanceMm,
    /** Zones by which the outermost tile is wrong if it is aligned with the eye in front of its own middle. */
    ownMiddleZones: Math.max(...tiling.tiles.map((tile) => zonesOff(job, tile))),
  };
};
