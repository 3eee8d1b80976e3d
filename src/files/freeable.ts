/** What is on the browser's private disk beside the frames: how much it is, and how to free it. */
import { diskFolders } from '../contract/disk.ts';
import { loadParallax } from './parallax-store.ts';
import { privateDisk } from './private-disk.ts';
import { isAloneWithScratch } from './sweep.ts';

export interface ScratchRoom {
  readonly preparedBytes: number;
  readonly sheetBytes: number;
  readonly parallaxBytes: number;
  /** False: prepared frames and sheets may belong to another page, so they must stay. */
  readonly alone: boolean;
}

const folderNamed = async (
  folder: keyof typeof diskFolders,
): Promise<FileSystemDirectoryHandle | undefined> => {
  try {
    const root = await privateDisk();
    return await root.getDirectoryHandle(diskFolders[folder]);
  } catch {
    return undefined; // Not there, or no private disk that answers.
  }
};

const filesIn = async (folder: 'prepared' | 'sheets'): Promise<File[]> => {
  const files: File[] = [];
  for await (const entry of (await folderNamed(folder))?.values() ?? [])
    if (entry.kind === 'file')
      await (entry as FileSystemFileHandle).getFile().then(
        (file) => files.push(file),
        () => undefined, // Gone meanwhile.
      );
  return files;
};

const bytesOf = (files: readonly File[]): number => files.reduce((sum, { size }) => sum + size, 0);

/** @param inUse names of prepared files that are needed and not counted. */
export const scratchRoom = async (inUse: ReadonlySet<string>): Promise<ScratchRoom> => {
  const [prepared, sheets, parallax, alone] = await Promise.all([
    filesIn('prepared'),
    filesIn('sheets'),
    loadParallax().catch(() => undefined),
    isAloneWithScratch(),
  ]);
  return {
    preparedBytes: bytesOf(prepared.filter(({ name }) => !inUse.has(name))),
    sheetBytes: bytesOf(sheets),
    parallaxBytes: (parallax?.pairs ?? []).reduce(
      (sum, { shift, rise }) => sum + shift.byteLength + rise.byteLength,
      0,
    ),
    alone,
  };
};

const removeFiles = async (
  folder: 'prepared' | 'sheets',
  spared: ReadonlySet<string>,
): Promise<void> => {
  const place = await folderNamed(folder);
  for (const { name } of await filesIn(folder))
    if (!spared.has(name)) await place?.removeEntry(name).catch(() => undefined);
};

export const freePrepared = (inUse: ReadonlySet<string>): Promise<void> =>
  removeFiles('prepared', inUse);
export const freeSheets = (): Promise<void> => removeFiles('sheets', new Set());
