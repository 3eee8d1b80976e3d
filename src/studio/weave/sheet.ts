/** Weaves the sheet of the open job. */
import { weaveSheet as weaveInto } from '../../calls/weave.ts';
import { isoDay } from '../../core/units/day.ts';
import { pageToWeave } from '../../job/facts/page.ts';
import { sheetSpecOf } from '../../job/facts/sheet.ts';
import type { Studio } from '../studio.ts';
import { inColours } from '../colour/conversion.ts';
import type { JobFrames } from './frames-of-job.ts';
import { framesOfJob } from './frames-of-job.ts';
import { sheetFileName, sheetInfo } from './sheet-info.ts';
import type { Asked } from './go-on.ts';
import { weaveFiles } from './weave-file.ts';

export const weaveSheet = (studio: Studio, asked?: Asked): Promise<void> =>
  weaveFiles<JobFrames>(
    studio,
    'sheet',
    (job, { at, fileType, units }) => {
      const page = pageToWeave(job, units, isoDay(at));
      const sheet = sheetSpecOf(job);
      const fileName = sheetFileName(job, fileType);
      const info = sheetInfo(job, at, page);
      return {
        named: fileName,
        to: studio.view.getState().saveTo,
        ...framesOfJob(studio, job, fileType),
        files: [
          {
            name: 'sheet',
            fileName,
            info,
            write: ({ stack, conversion }, sink, call) => {
              const request = { sheet, stack, fileType, info, ...(page && { page }) };
              return weaveInto(inColours(request, conversion), sink, call);
            },
          },
        ],
      };
    },
    asked,
  );
