/** Pictures and job files that another program shared with the installed studio, through the system. */
import { forgetTaken, sharedFiles, takenFiles } from '../../files/shared.ts';
import type { Studio } from '../studio.ts';
import { handOverFiles } from './hand-over.ts';

const takeIn = async (studio: Studio, files: readonly File[]): Promise<void> => {
  if (files.length > 0) await handOverFiles(studio, files);
  await studio.disk.frames.settled();
  await forgetTaken();
};

/** The page before this one may have gone before what it took was on the disk: its job then gets it back. */
const giveBack = async (studio: Studio): Promise<void> => {
  const taken = await takenFiles();
  if (taken.length === 0) return;
  const ids = studio.document.getState().job.frames.map(({ id }) => id);
  const lost = await studio.disk.frames.missing(ids);
  await takeIn(studio, lost.length > 0 ? taken : []);
};

/** Takes what was shared before the page came, and what is shared while it lies behind other windows. */
export const takeShared = (studio: Studio): void => {
  const look = async () => {
    const files = await sharedFiles();
    if (files.length > 0) await takeIn(studio, files);
  };
  // What is not taken now is there at the next start.
  const lookSoftly = () => void look().catch(() => undefined);
  void giveBack(studio)
    .catch(() => undefined)
    .then(lookSoftly);
  addEventListener('focus', lookSoftly);
};
