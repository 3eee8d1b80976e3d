/** Why a strip does not serve a sheet. */
import { axisOfWoven, wovenFits } from '../facts/pitch.ts';
import { gridOf } from '../facts/printer.ts';
import type { Job } from '../schema/job.ts';
import type { WovenStrip } from '../schema/pitch.ts';
import { axisWords, edgeWords } from './printer.ts';

/** Why the job cannot take a pitch from this strip, and what to do; undefined where it can. */
export const sayUnfit = (job: Job, woven: WovenStrip): string | undefined => {
  if (wovenFits(job, woven)) return undefined;
  const { axis, fedFirst } = gridOf(job);
  const measured = axisOfWoven(woven);
  return measured === axis
    ? 'Lens pitch or dots have changed since this strip: weave another.'
    : `Weave another strip and print it as the sheet, ${edgeWords[fedFirst]} first. This one was read ${axisWords[measured]} ` +
        `of the printer; across this sheet’s ribs the pitch is needed ${axisWords[axis]}, where paper stretches otherwise.`;
};
