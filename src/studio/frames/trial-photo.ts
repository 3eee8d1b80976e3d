/** A photo of a print into its trial. */
import { toWorkError } from '../../contract/errors.ts';
import { frameStore } from '../../files/frame-store.ts';
import { newId } from '../../files/new-id.ts';
import { isNoRoom } from '../../files/room.ts';
import { setTrial } from '../../job/facts/trials.ts';
import { lookAt } from '../../calls/frames.ts';
import { tryChange } from '../../state/change.ts';
import { frameFoundNoRoom } from '../keep/no-room.ts';

/** Without room it stands in the trial all the same, and is kept once there is some. */
const onFullDisk = (what: string) => (error: unknown) => {
  if (!isNoRoom(error)) throw error;
  frameFoundNoRoom(what);
  return toWorkError(error).message;
};

/** Keeps a small copy of the photo. Returns why that was not possible, or not yet. */
export const takePhoto = async (trialId: string, file: File): Promise<string | undefined> => {
  try {
    const looked = await lookAt(file, file.name, { exposureStops: 0 });
    if (!looked.done) return undefined;
    const { thumbnail } = looked.value;
    const [photoId, name] = [newId(), `the photo ${file.name}`];
    const notYet = await frameStore
      .keep(photoId, name, thumbnail, thumbnail)
      .then(() => undefined, onFullDisk(name));
    const refused = tryChange('photo of the trial', (job) => setTrial(job, trialId, { photoId }));
    return refused ?? notYet;
  } catch (error) {
    return toWorkError(error).message;
  }
};
