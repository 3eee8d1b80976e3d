/** The way in for what is dropped, pasted or opened from the system. The rest of the way is loaded when it is wanted. */
import type { Picked } from '../../files/pick-drop.ts';
import { pickDrop } from '../../files/pick-drop.ts';
import type { Studio } from '../studio.ts';

const takeAll = async (studio: Studio, picked: Picked): Promise<void> => {
  const [{ gatherPicked }, { receive }] = await Promise.all([
    import('../../files/arrivals.ts'),
    import('./receive.ts'),
  ]);
  await receive(studio, (signal) => gatherPicked(picked, signal));
};

const orTell = (studio: Studio) => (): void =>
  studio.tell(
    'What you handed over was not taken: a part of the studio could not be loaded. Try again.',
  );

/** Resolves when they were taken or refused; frames may still be on their way to the disk. */
export const handOverFiles = (studio: Studio, files: readonly File[]): Promise<void> =>
  takeAll(studio, { entries: [], files }).catch(orTell(studio));

/** Call it within the drop event. */
export const handOverDrop = (studio: Studio, transfer: DataTransfer): void =>
  void takeAll(studio, pickDrop(transfer)).catch(orTell(studio));
