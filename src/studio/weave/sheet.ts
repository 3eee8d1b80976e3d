/** Weaves the sheet of the open job. */
import { weaveSheet as weaveInto } from '../../calls/weave.ts';
import type { FrameStack } from '../../contract/weave.ts';
import { isoDay } from '../../core/units/day.ts';
import { pageToWeave } from '../../job/facts/page.ts';
import { sheetSpecOf } from '../../job/facts/sheet.ts';
import type { Studio } from '../studio.ts';
import { framesOfJob } from './frames-of-job.ts';
import { sheetFileName, sheetInfo } from './sheet-info.ts';
import { weaveFiles } from './weave-file.ts';
import { staleBy, wovenFrom } from './woven-from.ts';

export const weaveSheet = (studio: Studio): Promise<void> =>
  weaveFiles<FrameStack>(studio, 'sheet', (job) => {
    const { fileType, saveTo, units } = studio.view.getState();
    const page = pageToWeave(job, units, isoDay(new Date()));
    const sheet = sheetSpecOf(job);
    const fileName = sheetFileName(job, fileType);
    return {
      named: fileName,
      fileType,
      to: saveTo,
      ...framesOfJob(studio, job),
      files: [
        {
          name: 'sheet',
          fileName,
          rows: (page ?? sheet).heightDots,
          write: (stack, sink, call) => {
            const info = sheetInfo(job, new Date(), page);
            const request = { sheet, stack, fileType, info, ...(page && { page }) };
            return weaveInto(request, sink, call);
          },
        },
      ],
      isStale: staleBy(studio, job, wovenFrom),
    };
  });
