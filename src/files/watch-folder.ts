/**
 * Watching a folder for renders as they are written (File System Access, where the browser has it). A
 * file counts as complete when two looks in a row find the same size and time.
 */
import { isLitter } from '../core/names/paths.ts';
import { gatherFiles } from './arrivals.ts';
import { unlessClosed } from './dialog.ts';

/** As much of a `FileSystemDirectoryHandle` as is needed; only Chromium lists its files. */
export interface WatchedFolder {
  readonly name: string;
  values(): AsyncIterable<{
    readonly kind: 'file' | 'directory';
    readonly name: string;
    getFile?(): Promise<File>;
  }>;
}

type Picker = (choice: { id: string; mode: 'read' }) => Promise<WatchedFolder>;

const picker = (): Picker | undefined =>
  (globalThis as { showDirectoryPicker?: Picker }).showDirectoryPicker;

export const canWatch = (): boolean => picker() !== undefined;

/** Undefined if the person chose none. Call it within a click. */
export const pickFolder = (): Promise<WatchedFolder | undefined> =>
  unlessClosed(picker()?.({ id: 'renders', mode: 'read' }));

const stampOf = (file: File): string => `${file.size} ${file.lastModified}`;

/** Remembers what it has seen of one folder. */
export class FolderLooks {
  readonly #folder: WatchedFolder;
  readonly #seen = new Map<string, string>();
  readonly #taken = new Map<string, string>();

  constructor(folder: WatchedFolder) {
    this.#folder = folder;
  }

  /**
   * Complete files that are new or changed since they were last returned.
   * @param isKnown whether the job has this file already; asked once for each state of a file.
   * Throws what the browser throws if the folder is gone or may no longer be read.
   */
  async look(isKnown: (file: File) => boolean): Promise<File[]> {
    const complete: File[] = [];
    for await (const entry of this.#folder.values()) {
      if (entry.kind !== 'file' || isLitter(entry.name)) continue;
      // A file may vanish between listing and opening, as temporary ones do.
      const file = await entry.getFile?.().catch(() => undefined);
      if (file === undefined || file.size === 0) continue;
      const stamp = stampOf(file);
      const stable = this.#seen.get(file.name) === stamp;
      this.#seen.set(file.name, stamp);
      if (!stable || this.#taken.get(file.name) === stamp) continue;
      this.#taken.set(file.name, stamp);
      if (!isKnown(file)) complete.push(file);
    }
    return (await gatherFiles(complete)).arrivals.map(({ file }) => file as File);
  }
}
