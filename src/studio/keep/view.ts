/** Between the view store and the browser: how the person looks at the job, when there is no room to remember it. */
import { isNoRoom } from '../../files/room.ts';
import type { Room } from './no-room.ts';

/** Where the browser remembers nothing at all the view lasts as long as the page, which needs no word. */
export const rememberViewOnFullDisk = (
  room: Room,
  error: unknown,
  writeAgain: () => void,
): void => {
  if (!isNoRoom(error)) return;
  room
    .keep('your settings (units, theme, file type)', async () => writeAgain())
    .catch(() => undefined);
};
