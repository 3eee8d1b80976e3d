/** What a cut leaves of a lens sheet, kept as stock and offered for the next print that fits. */
import type { PieceSize } from '../core/plan/money.ts';
import { trimmed } from '../core/units/format.ts';
import { mm } from '../core/units/units.ts';
import type { Job } from '../job/schema/job.ts';
import type { Cut } from './cut-list.ts';
import { lensCut } from './cut-list.ts';
import type { LensEntry, Shelves } from './shelves.ts';
import { freeName } from './shelves.ts';
import { isLensOfJob, stockOf } from './use-in-job.ts';

/** Smaller pieces are kept by nobody (ours, no source). */
const LEAST_MM = 40;

/**
 * The strip beside the pieces, as high as the sheet, and the one below them; each without the gap for the blade. As the
 * sheet lies in the cut. None where no piece comes out.
 */
export const leftOver = ({ widthMm, heightMm, gapMm, piece, across, down }: Cut): PieceSize[] => {
  if (across === 0) return [];
  const [usedWidth, usedHeight] = [
    across * (piece.widthMm + gapMm),
    down * (piece.heightMm + gapMm),
  ];
  return [
    { widthMm: mm(widthMm - usedWidth), heightMm },
    { widthMm: mm(usedWidth - gapMm), heightMm: mm(heightMm - usedHeight) },
  ].filter((left) => Math.min(left.widthMm, left.heightMm) >= LEAST_MM);
};

/** Paid for with the sheet they are left of. @param newId called once for each */
export const offcutsOf = (
  sheet: LensEntry,
  cut: Cut,
  shelves: Shelves,
  newId: () => string,
): LensEntry[] => {
  const made: LensEntry[] = [];
  for (const { widthMm, heightMm } of leftOver(cut)) {
    const [across, along] = cut.turned ? [heightMm, widthMm] : [widthMm, heightMm];
    const name = `Offcut ${trimmed(across, 0)} × ${trimmed(along, 0)}, ${sheet.name}`.slice(0, 90);
    const known = { ...shelves, lenses: [...shelves.lenses, ...made] };
    made.push({
      ...sheet,
      id: newId(),
      name: freeName(known, 'lenses', name),
      widthMm: across,
      heightMm: along,
      offcutOf: sheet.offcutOf ?? sheet.id,
      price: 0,
      note: '',
    });
  }
  return made;
};

/** Offcuts of the job's lens that its print can be cut from, the smallest first; none where one is chosen already. */
export const offcutsThatFit = (job: Job, { lenses }: Shelves): LensEntry[] => {
  const { lensId } = stockOf(job);
  const fit = lenses.filter(
    (entry) =>
      entry.offcutOf !== undefined && isLensOfJob(job, entry) && lensCut(job, entry).pieces > 0,
  );
  if (fit.some(({ id }) => id === lensId)) return [];
  return fit.sort((a, b) => a.widthMm * a.heightMm - b.widthMm * b.heightMm);
};
