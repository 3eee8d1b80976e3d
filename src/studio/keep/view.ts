import { isNoRoom } from '../../files/room.ts';
import type { Room } from './no-room.ts';

/** Retries to store the view once a full disk has room. If the browser stores nothing at all, it lasts as long as the page. */
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
