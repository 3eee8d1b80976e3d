/** Weaves the tiles of a print over several lens sheets, one after the other. */
import { weaveSheet } from '../../calls/weave.ts';
import { StudioError } from '../../contract/errors.ts';
import { nameInText } from '../../core/names/shown.ts';
import { isoDay } from '../../core/units/day.ts';
import { sheetSpecOf } from '../../job/facts/sheet.ts';
import { shortTileName, splitOf, tilePageOf, tilePaperOf } from '../../job/facts/tiles.ts';
import type { Job } from '../../job/schema/job.ts';
import type { Studio } from '../studio.ts';
import { inColours } from '../colour/conversion.ts';
import type { JobFrames } from './frames-of-job.ts';
import { framesOfJob } from './frames-of-job.ts';
import type { Asked, Terms } from './go-on.ts';
import { sheetFileName, sheetInfo } from './sheet-info.ts';
import type { FileSet } from './weave-file.ts';
import { weaveFiles } from './weave-file.ts';

/** @throws StudioError if the print cannot be divided */
export const tilesOfJob = (
  studio: Studio,
  job: Job,
  { at, fileType, units }: Terms,
): Omit<FileSet<JobFrames>, 'to'> => {
  const split = splitOf(job);
  if (!split.ok) throw new StudioError('internal', split.message);
  const { tiling } = split;
  const { page: paper } = tilePaperOf(job, tiling);
  const today = isoDay(at);
  const sheet = sheetSpecOf(job);
  return {
    named: `the tiles of ${nameInText(job.name)}`,
    ...framesOfJob(studio, job, fileType),
    // In the order in which they lie: row by row.
    files: tiling.tiles.map((tile) => {
      const name = shortTileName(tile);
      const page = tilePageOf(job, tiling, tile, paper, units, today);
      const info = sheetInfo({ ...job, name: `${job.name}, ${name}` }, at, page);
      return {
        name,
        fileName: `Row ${tile.row + 1} tile ${tile.column + 1}, ${sheetFileName(job, fileType)}`,
        info,
        write: ({ stack, conversion }, sink, call) =>
          weaveSheet(inColours({ sheet, stack, page, fileType, info }, conversion), sink, call),
      };
    }),
  };
};

/** @param where `here`: files to download; `folder`: a folder that the person chooses. */
export const weaveTiles = (
  studio: Studio,
  where: 'here' | 'folder',
  asked?: Asked,
): Promise<void> =>
  weaveFiles<JobFrames>(
    studio,
    'tiles',
    (job, terms) => ({
      ...tilesOfJob(studio, job, terms),
      to: where === 'folder' ? 'folder' : 'private-disk',
    }),
    asked,
  );
