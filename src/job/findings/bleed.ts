/** Whether the bleed has picture in it. */
import { trimmed } from '../../core/units/format.ts';
import { setPage } from '../facts/page.ts';
import { bleedMmOf } from '../facts/sheet.ts';
import { slotPicturesOf } from '../facts/slot-pictures.ts';
import type { Job } from '../schema/job.ts';
import type { Finding } from './finding.ts';

/** A frame that ends this many pixels short still counts as reaching the edge of the bleed. */
const NEARLY_PX = 0.5;

export const bleedFinding = (job: Job): Finding | undefined => {
  const bleedMm = bleedMmOf(job);
  if (bleedMm === 0 || job.page?.whiteBleed !== true) return undefined;
  const short = slotPicturesOf(job).pictures.some(
    ({ frame, area: { left, top, width, height }, ground }) =>
      ground === undefined &&
      (left < -NEARLY_PX ||
        top < -NEARLY_PX ||
        left + width > frame.widthPx + NEARLY_PX ||
        top + height > frame.heightPx + NEARLY_PX),
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
