/** Figures of a split: how large it comes out and how exact the tiles must be (optics relations 1, 7). */
import { opticalGap } from '../../core/lens/lens.ts';
import { tolerance } from '../../core/plan/tolerance.ts';
import type { Tiling } from '../../core/sheet/tiles.ts';
import type { Lpi, Mm } from '../../core/units/units.ts';
import { mm } from '../../core/units/units.ts';
import type { Job } from '../schema/job.ts';
import { exactnessOf } from './plan.ts';
import { acrossMm, lensOf } from './sheet.ts';
import { printedLensPitch, zonesOff } from './tiles.ts';

export interface TileNumbers {
  readonly sheets: number;
  readonly ribs: number;
  /** The whole as assembled, across its ribs, and what of the print falls away there, both sides. */
  readonly assembledMm: Mm;
  readonly fallsAwayMm: Mm;
  readonly pitchMm: Mm;
  readonly budgetZones: number;
  /** How exactly two neighbours must agree in how print and lens lie: τ p. */
  readonly agreeMm: Mm;
  /** Each tile by itself: half of that. */
  readonly eachMm: Mm;
  /** ΔLPI ≤ τ / W of the widest tile: what is off slides back to right at each tile's middle. */
  readonly pitchLpi: Lpi;
  readonly widestMm: Mm;
  /** Zones by which a gap of one whole rib between two lenses changes what is seen: g / D. */
  readonly gapZones: number;
  /** Zones by which the outermost tile is wrong when it is aligned from before its own middle. */
  readonly ownMiddleZones: number;
}

export const tileNumbers = (job: Job, tiling: Tiling): TileNumbers => {
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
    assembledMm: mm(ribs * pitchMm),
    fallsAwayMm: mm(acrossMm(job) - ribs * pitchMm),
    pitchMm,
    budgetZones,
    agreeMm: exact.centringMm,
    eachMm: mm(exact.centringMm / 2),
    pitchLpi: exact.pitchLpi,
    widestMm,
    gapZones: opticalGap(lensOf(job)) / job.print.viewingDistanceMm,
    ownMiddleZones: Math.max(...tiling.tiles.map((tile) => zonesOff(job, tile))),
  };
};
