/** A folder that the person chooses, where the browser lets them: several files at one press. */
import { StudioError } from '../contract/errors.ts';
import type { Sink } from '../contract/sink.ts';
import { openHandleSink } from './sinks.ts';

interface FolderPicker {
  showDirectoryPicker?: (options: { mode: 'readwrite' }) => Promise<FileSystemDirectoryHandle>;
}

export const canChooseFolder = (): boolean =>
  typeof (globalThis as FolderPicker).showDirectoryPicker === 'function';

/** Undefined when they close the dialog without choosing. */
export const askForFolder = async (): Promise<FileSystemDirectoryHandle | undefined> => {
  try {
    return await (globalThis as FolderPicker).showDirectoryPicker?.({ mode: 'readwrite' });
  } catch (error) {
    if (error instanceof DOMException && error.name === 'AbortError') return undefined;
    const reason = error instanceof Error ? error.message : String(error);
    throw new StudioError('internal', `The folder could not be opened: ${reason}`);
  }
};

/** A file in the folder; one of the same name stands until the new one is whole. */
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
    const reason = error instanceof Error ? error.message : String(error);
    throw new StudioError('internal', `${fileName} could not be made there: ${reason}`, fileName);
  }
};
