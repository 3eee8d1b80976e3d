/** What a person hands over as frames: chosen files and folders that are watched. Loaded with the Frames bench. */
export { acceptedFiles } from '../../files/accepted.ts';
export { gatherFiles } from '../../files/arrivals.ts';
export { FolderLooks, canWatch, pickFolder } from '../../files/watch-folder.ts';
export type { WatchedFolder } from '../../files/watch-folder.ts';
