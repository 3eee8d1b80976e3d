/** A folder that the person chooses, if the browser allows it, for several files at once. */
import { StudioError, messageOf } from '../contract/errors.ts';
import type { Sink } from '../contract/sink.ts';
import { unlessClosed } from './dialog.ts';
import { nameInText } from '../core/names/shown.ts';
import { openHandleSink } from './sinks.ts';

interface FolderPicker {
  showDirectoryPicker?: (options: { mode: 'readwrite' }) => Promise<FileSystemDirectoryHandle>;
}

export const canChooseFolder = (): boolean =>
  typeof (globalThis as FolderPicker).showDirectoryPicker === 'function';

export const askForFolder = async (): Promise<FileSystemDirectoryHandle | undefined> => {
  try {
    return await unlessClosed(
      (globalThis as FolderPicker).showDirectoryPicker?.({ mode: 'readwrite' }),
    );
  } catch (error) {
    throw new StudioError('internal', `The folder could not be opened: ${messageOf(error)}`);
  }
};

/** A file in the folder. It replaces one of the same name only when it is whole. */
export const openFolderSink = async (
  folder: FileSystemDirectoryHandle,
  fileName: string,
): Promise<Sink> => {
  const before = await folder.getFileHandle(fileName).then(
    () => true,
    () => false,
  );
  try {
    const sink = await openHandleSink(await folder.getFileHandle(fileName, { create: true }));
    return {
      ...sink,
      abort: async () => {
        await sink.abort();
        // Remove the empty file that was created for this name.
        if (!before) await folder.removeEntry(fileName);
      },
    };
  } catch (error) {
    if (error instanceof StudioError) throw error;
    throw new StudioError(
      'internal',
      `${nameInText(fileName)} could not be made there: ${messageOf(error)}`,
      fileName,
    );
  }
};
