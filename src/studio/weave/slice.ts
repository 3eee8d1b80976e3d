/** Weaves a narrow slice of the print, to test a cure on a scrap of lens. */
import { weaveSheet } from '../../calls/weave.ts';
import { sheetSpecOf } from '../../job/facts/sheet.ts';
import { sliceOf } from '../../job/facts/slice.ts';
import type { Studio } from '../studio.ts';
import { inColours } from '../colour/conversion.ts';
import type { JobFrames } from './frames-of-job.ts';
import { framesOfJob } from './frames-of-job.ts';
import { sheetFileName, sheetInfo } from './sheet-info.ts';
import type { Asked } from './go-on.ts';
import { weaveFiles } from './weave-file.ts';

export const weaveSlice = (studio: Studio, asked?: Asked): Promise<void> =>
  weaveFiles<JobFrames>(
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
        ...framesOfJob(studio, job, fileType),
        files: [
          {
            name: 'slice',
            fileName,
            info,
            write: ({ stack, conversion }, sink, call) => {
              const request = { sheet: sheetSpecOf(job), stack, page, fileType, info };
              return weaveSheet(inColours(request, conversion), sink, call);
            },
          },
        ],
      };
    },
    asked,
  );
