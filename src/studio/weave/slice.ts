/** Weaves a narrow slice of the print, to test a cure on a scrap of lens. */
import { weaveSheet } from '../../calls/weave.ts';
import type { FrameStack } from '../../contract/weave.ts';
import { sheetSpecOf } from '../../job/facts/sheet.ts';
import { sliceOf } from '../../job/facts/slice.ts';
import type { Studio } from '../studio.ts';
import { framesOfJob } from './frames-of-job.ts';
import { sheetFileName, sheetInfo } from './sheet-info.ts';
import { weaveFiles } from './weave-file.ts';
import { staleBy, wovenFrom } from './woven-from.ts';

export const weaveSlice = (studio: Studio): Promise<void> =>
  weaveFiles<FrameStack>(studio, 'slice', (job) => {
    const { fileType, saveTo } = studio.view.getState();
    const page = sliceOf(job);
    const fileName = sheetFileName({ ...job, name: `Slice of ${job.name}` }, fileType);
    return {
      named: fileName,
      fileType,
      to: saveTo,
      ...framesOfJob(studio, job),
      files: [
        {
          name: 'slice',
          fileName,
          rows: page.heightDots,
          write: (stack, sink, call) => {
            // Trim and bleed of the whole print do not apply to the slice.
            const { trim: _trim, bleed: _bleed, ...info } = sheetInfo(job, new Date(), page);
            return weaveSheet({ sheet: sheetSpecOf(job), stack, page, fileType, info }, sink, call);
          },
        },
      ],
      isStale: staleBy(studio, job, wovenFrom),
    };
  });
