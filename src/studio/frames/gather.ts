/** What a person hands over as frames: files, drops, folders that are watched. Loaded with the Frames bench. */
export { acceptedFiles, gatherDrop, gatherFiles } from '../../files/arrivals.ts';
export { FolderLooks, canWatch, pickFolder } from '../../files/watch-folder.ts';
export type { WatchedFolder } from '../../files/watch-folder.ts';
