/** Whether the bleed has picture in it. */
import { trimmed } from '../../core/units/format.ts';
import { filledSides } from '../../core/weave/picture-area.ts';
import { setPage } from '../facts/page.ts';
import { bleedMmOf } from '../facts/sheet.ts';
import { slotPicturesOf } from '../facts/slot-pictures.ts';
import type { Job } from '../schema/job.ts';
import type { Finding } from './finding.ts';

export const bleedFinding = (job: Job): Finding | undefined => {
  const bleedMm = bleedMmOf(job);
  if (bleedMm === 0 || job.page?.whiteBleed !== true) return undefined;
  const short = slotPicturesOf(job).pictures.some(
    ({ frame, area, ground }) =>
      ground === undefined && Object.values(filledSides(area, frame)).includes(false),
  );
  if (!short) return undefined;
  return {
    id: 'bleed-white',
    severity: 'note',
    title: 'The bleed stays white where frames end',
    figure: `${trimmed(bleedMm, 1)} mm of bleed`,
    reason: 'A cut that runs a little outside the trim leaves a white edge on the print.',
    remedy: 'Mirror the edge of the frames into it, or render them larger by the bleed.',
    action: {
      label: 'Mirror their edge',
      undoLabel: 'bleed where frames end',
      edit: (current) => setPage(current, { whiteBleed: undefined }),
    },
  };
};
