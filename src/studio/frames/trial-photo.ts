/** Adds a photo of a print to its trial. */
import { lookAt } from '../../calls/frames.ts';
import { messageOf } from '../../contract/errors.ts';
import { nameInText } from '../../core/names/shown.ts';
import { newId } from '../../files/new-id.ts';
import { isNoRoom } from '../../files/room.ts';
import { setTrial } from '../../job/facts/trials.ts';
import type { Studio } from '../studio.ts';

/** On a full disk the photo still joins the trial and is kept once there is room. @returns what to tell the person */
const keepPhoto = async (
  { disk, room }: Studio,
  photoId: string,
  name: string,
  photo: Blob,
): Promise<string | undefined> => {
  try {
    await disk.frames.keep(photoId, name, photo, photo);
    return undefined;
  } catch (error) {
    if (!isNoRoom(error)) throw error;
    room.frameFoundNone(name);
    return messageOf(error);
  }
};

/** Keeps a small copy of the photo. @returns why that failed or has to wait */
export const takePhoto = async (
  studio: Studio,
  trialId: string,
  file: File,
): Promise<string | undefined> => {
  try {
    const looked = await lookAt(file, file.name, { exposureStops: 0 });
    if (!looked.done) return undefined;
    const photoId = newId();
    const { thumbnail } = looked.value;
    const notYet = await keepPhoto(
      studio,
      photoId,
      `the photo ${nameInText(file.name)}`,
      thumbnail,
    );
    return (
      studio.change('photo of the trial', (job) => setTrial(job, trialId, { photoId })) ?? notYet
    );
  } catch (error) {
    return messageOf(error);
  }
};
