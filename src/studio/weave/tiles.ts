/** Weaves the tiles of a print over several lens sheets, one after the other. */
import { weaveSheet } from '../../calls/weave.ts';
import { StudioError } from '../../contract/errors.ts';
import type { FrameStack } from '../../contract/weave.ts';
import { nameInText } from '../../core/names/shown.ts';
import { isoDay } from '../../core/units/day.ts';
import { sheetSpecOf } from '../../job/facts/sheet.ts';
import { shortTileName, splitOf, tilePageOf, tilePaperOf } from '../../job/facts/tiles.ts';
import type { Studio } from '../studio.ts';
import { framesOfJob } from './frames-of-job.ts';
import { sheetFileName, sheetInfo } from './sheet-info.ts';
import type { Asked } from './go-on.ts';
import { weaveFiles } from './weave-file.ts';

/** @param where `here`: files to download; `folder`: a folder that the person chooses. */
export const weaveTiles = (
  studio: Studio,
  where: 'here' | 'folder',
  asked?: Asked,
): Promise<void> =>
  weaveFiles<FrameStack>(
    studio,
    'tiles',
    (job, { at, fileType, units }) => {
      const split = splitOf(job);
      if (!split.ok) throw new StudioError('internal', split.message);
      const { tiling } = split;
      const { page: paper } = tilePaperOf(job, tiling);
      const today = isoDay(at);
      return {
        named: `the tiles of ${nameInText(job.name)}`,
        to: where === 'folder' ? 'folder' : 'private-disk',
        ...framesOfJob(studio, job),
        // In the order in which they lie: row by row.
        files: tiling.tiles.map((tile) => {
          const name = shortTileName(tile);
          const page = tilePageOf(job, tiling, tile, paper, units, today);
          return {
            name,
            fileName: `Row ${tile.row + 1} tile ${tile.column + 1}, ${sheetFileName(job, fileType)}`,
            rows: page.heightDots,
            write: (stack, sink, call) => {
              const info = sheetInfo({ ...job, name: `${job.name}, ${name}` }, at, page);
              return weaveSheet(
                { sheet: sheetSpecOf(job), stack, page, fileType, info },
                sink,
                call,
              );
            },
          };
        }),
      };
    },
    asked,
  );
