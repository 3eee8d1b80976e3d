/** Where woven files go: a file or a folder that the person chooses, or the browser's private disk. */
import type { Sink } from '../../contract/sink.ts';
import type { SheetFileType } from '../../core/encode/file-types.ts';
import { sheetFileTypes } from '../../core/encode/file-types.ts';
import { askForFolder, openFolderSink } from '../../files/folder.ts';
import type { KeptSink } from '../../files/sinks.ts';
import { askForFile, openHandleSink, openKeptSink } from '../../files/sinks.ts';

export type PlaceKind = 'private-disk' | 'chosen-file' | 'folder';

/** Opens a file with this name. `kept`: it is on the private disk, and the page offers to save it. */
export type Place = (
  fileName: string,
) => Promise<{ readonly sink: Sink; readonly kept?: KeptSink }>;

interface Wanted {
  readonly to: PlaceKind;
  readonly fileType: SheetFileType;
  readonly files: readonly { readonly fileName: string }[];
}

/**
 * Asks the person if needed. The dialog must open from their own click, so call this before waiting for anything else.
 * Undefined if they close it without choosing.
 */
export const askWhere = async ({ to, fileType, files }: Wanted): Promise<Place | undefined> => {
  if (to === 'private-disk')
    return async (fileName) => {
      const kept = await openKeptSink(fileName, fileType);
      return { sink: kept, kept };
    };
  if (to === 'folder') {
    const folder = await askForFolder();
    return folder && (async (fileName) => ({ sink: await openFolderSink(folder, fileName) }));
  }
  const handle = await askForFile(files[0]?.fileName ?? '', sheetFileTypes[fileType]);
  return handle && (async () => ({ sink: await openHandleSink(handle) }));
};
