/** What is wrong with a split over lens sheets, and what would put it right. */
import { trimmed } from '../../core/units/format.ts';
import type { Tiling } from '../../core/sheet/tiles.ts';
import type { Finding } from './finding.ts';
import type { Job } from '../schema/job.ts';
import { ROUNDING_MM, pageOf } from '../facts/page.ts';
import {
  RAIL_SEEN_MM,
  railUnderLensMm,
  setTiles,
  splitOf,
  tilePaperOf,
  tilesOf,
  tooLargeBy,
} from '../facts/tiles.ts';

const tooLarge = (job: Job, tiling: Tiling): Finding | undefined => {
  const { acrossMm, alongMm } = tooLargeBy(job, tiling);
  const way = acrossMm > 0 ? 'across' : 'along';
  const least = acrossMm > 0 ? tiling.leastAcross : tiling.leastAlong;
  if (acrossMm <= 0 && alongMm <= 0) return undefined;
  return {
    id: 'tiles-too-large',
    severity: 'problem',
    title: 'Tiles are larger than their lens',
    figure: `${trimmed(acrossMm > 0 ? acrossMm : alongMm, 1)} mm too far ${way} the ribs`,
    reason: 'A lens sheet, cut at its edges, does not cover the tile that lies beneath it.',
    remedy: `It takes ${least} tiles ${way} the ribs, or larger lens sheets.`,
    action: {
      label: `Use ${least} ${way} the ribs`,
      undoLabel: 'number of tiles',
      edit: (current) => setTiles(current, { [way]: undefined }),
    },
  };
};

const offPaper = (job: Job, tiling: Tiling): Finding | undefined => {
  const { pictureMm, allMm } = tilePaperOf(job, tiling);
  if (allMm <= ROUNDING_MM) return undefined;
  const pictureOff = pictureMm > ROUNDING_MM;
  return {
    id: 'tiles-off-paper',
    severity: pictureOff ? 'problem' : 'caution',
    title: pictureOff
      ? 'Tiles do not fit on their paper'
      : 'Rails or marks of the tiles do not fit on their paper',
    figure: `${trimmed(pictureOff ? pictureMm : allMm, 1)} mm too far`,
    reason:
      'With what is printed around it a tile reaches into the margins that the printer leaves blank, or past the paper.',
    remedy: 'Use paper that takes the largest tile.',
    action: {
      label: 'Use the smallest paper that takes them',
      undoLabel: 'tile paper',
      edit: (current) => setTiles(current, { paper: 'smallest' }),
    },
  };
};

const railsBare = (job: Job): Finding | undefined => {
  const under = railUnderLensMm(job);
  if (!pageOf(job).rails || under >= RAIL_SEEN_MM) return undefined;
  const { overlapMm } = tilesOf(job);
  const needed = overlapMm + 1 + RAIL_SEEN_MM;
  return {
    id: 'tiles-rails-bare',
    severity: 'caution',
    title: 'The rails lie beside the lens',
    figure: `${trimmed(Math.max(0, under), 1)} mm under it`,
    reason:
      'A lens that is cut so little off its edges does not reach over the rails, so a tile can only be squared by its picture.',
    remedy: `Cut at least ${trimmed(needed, 1)} mm off each lens edge, or use less overlap.`,
    action: {
      label: `Cut ${trimmed(needed, 1)} mm off`,
      undoLabel: 'cut off each lens edge',
      edit: (current) => setTiles(current, { cutOffMm: needed }),
    },
  };
};

/** Nothing while tiles are off. */
export const tileFindings = (job: Job): readonly (Finding | undefined)[] => {
  if (job.tiles?.on !== true) return [];
  const split = splitOf(job);
  if (!split.ok)
    return [
      {
        id: 'tiles-impossible',
        severity: 'problem',
        title: 'The print cannot be split over these lens sheets',
        figure: `${trimmed(job.tiles.cutOffMm, 1)} mm off each edge`,
        reason: split.message,
        remedy: 'Put the lens sheet’s size right on the Mount bench, or cut less off its edges.',
        action: { label: 'Go to Mount', goTo: 'mount', part: 'tiles' },
      },
    ];
  return [tooLarge(job, split.tiling), offPaper(job, split.tiling), railsBare(job)];
};
