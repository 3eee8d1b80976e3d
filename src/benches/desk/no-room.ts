/** A disk or a quota that is full: what did not fit, told in one place with what can be freed. */
import { isNoRoom } from '../../files/room.ts';
import { workStore } from '../../state/work.ts';

/** @param what did not fit, as a person would name it. */
export const tellNoRoom = (what: string): void => {
  const { noRoomFor, set } = workStore.getState();
  if (!noRoomFor.includes(what)) set({ noRoomFor: [...noRoomFor, what] });
};

/** Tells, when it was for want of room. */
export const tellIfNoRoom = (error: unknown, what: string): void => {
  if (isNoRoom(error)) tellNoRoom(what);
};
