/** Weaves a narrow slice of the print, to test a cure on a scrap of lens. */
import { weaveSheet } from '../../calls/weave.ts';
import type { FrameStack } from '../../contract/weave.ts';
import { sheetSpecOf } from '../../job/facts/sheet.ts';
import { sliceOf } from '../../job/facts/slice.ts';
import type { Studio } from '../studio.ts';
import { framesOfJob } from './frames-of-job.ts';
import { sheetFileName, sheetInfo } from './sheet-info.ts';
import type { Asked } from './go-on.ts';
import { weaveFiles } from './weave-file.ts';

export const weaveSlice = (studio: Studio, asked?: Asked): Promise<void> =>
  weaveFiles<FrameStack>(
    studio,
    'slice',
    (job, { at, fileType }) => {
      const page = sliceOf(job);
      const fileName = sheetFileName({ ...job, name: `Slice of ${job.name}` }, fileType);
      // Trim and bleed of the whole print do not apply to the slice.
      const { trim: _trim, bleed: _bleed, ...info } = sheetInfo(job, at, page);
      return {
        named: fileName,
        to: studio.view.getState().saveTo,
        ...framesOfJob(studio, job),
        files: [
          {
            name: 'slice',
            fileName,
            info,
            write: (stack, sink, call) => {
              return weaveSheet(
                { sheet: sheetSpecOf(job), stack, page, fileType, info },
                sink,
                call,
              );
            },
          },
        ],
      };
    },
    asked,
  );
