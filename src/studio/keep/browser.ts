/** What the screen asks about this browser: benches do not import src/files. */
export { BUNDLE_MIME, isBundleName } from '../../files/bundle.ts';
export { canChooseFolder } from '../../files/folder.ts';
export { scratchRoom } from '../../files/freeable.ts';
export type { ScratchRoom } from '../../files/freeable.ts';
export { hasLocks } from '../../files/job-hold.ts';
export type { KeptJobEntry } from '../../files/job-store.ts';
export { askToKeep, promisedNow, roomNow } from '../../files/room.ts';
export type { Promised, Room } from '../../files/room.ts';
export { canChooseFile, hasPrivateDisk } from '../../files/sinks.ts';
