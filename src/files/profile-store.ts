/** Printer profiles, by the id of their bytes: in a database of the browser, else for as long as the page lives. */
import type { Shelf } from './shelves.ts';
import { openDatabaseShelf, openMemoryShelf } from './shelves.ts';

export type ProfileStore = Shelf;

export const openProfileStore = (): Promise<ProfileStore> =>
  openDatabaseShelf('tiltloom-profiles').catch(() => openMemoryShelf());
