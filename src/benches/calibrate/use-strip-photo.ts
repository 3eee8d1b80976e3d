/** The photo of the strip, and what it says of the strip at hand. */
import type { PhotoReading } from '../../core/pitch/photo/photo.ts';
import type { WovenStrip } from '../../job/schema/pitch.ts';
import { stripKeyOf } from '../../studio/read/strip-pictures.ts';
import { useJob, useTask } from '../studio.ts';

export const useStripPhoto = (strip: WovenStrip) => {
  const job = useJob();
  const photo = useTask('stripPhoto');
  const isRead = photo.stage === 'read';
  /** It was read as another strip, or for another lens. */
  const isOther = isRead && photo.stripKey !== stripKeyOf(job, strip);
  const reading: PhotoReading | undefined = isRead && !isOther ? photo.answer.reading : undefined;
  return { photo, isOther, reading };
};
