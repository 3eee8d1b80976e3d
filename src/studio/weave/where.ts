/** Where woven files go: a file or a folder that the person chooses, or the browser's private disk alone. */
import type { Sink } from '../../contract/sink.ts';
import type { SheetFileType } from '../../core/encode/file-types.ts';
import { sheetFileTypes } from '../../core/encode/file-types.ts';
import { askForFolder, openFolderSink } from '../../files/folder.ts';
import type { KeptFile } from '../../files/kept-file.ts';
import { pourInto } from '../../files/pour.ts';
import { askForFile, openHandleSink } from '../../files/sinks.ts';

export type PlaceKind = 'private-disk' | 'chosen-file' | 'folder';

/** Opens a file with this name where the person chose; left out: the private disk alone, where the page offers to save it. */
export interface Place {
  readonly chosen?: (fileName: string) => Promise<Sink>;
}

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
  if (to === 'private-disk') return {};
  if (to === 'folder') {
    const folder = await askForFolder();
    return folder && { chosen: (fileName) => openFolderSink(folder, fileName) };
  }
  const handle = await askForFile(files[0]?.fileName ?? '', sheetFileTypes[fileType]);
  return handle && { chosen: () => openHandleSink(handle) };
};

/**
 * Writes a file where the person chose, and keeps its bands to go on from. The bands that are kept already are copied
 * there first. A private disk without room costs only the going on.
 */
export const besideKept = (chosen: Sink, kept: KeptFile): Sink => {
  let hasHead = false;
  let keeps = true;
  return {
    begun: kept.begun,
    write: async (bytes) => {
      await chosen.write(bytes);
      if (hasHead) return;
      hasHead = true;
      await pourInto(kept.bands(), chosen);
    },
    writeBand: async (band, rows) => {
      await chosen.write(band.bytes);
      if (keeps) await kept.writeBand(band, rows).catch(() => (keeps = false));
    },
    patch: (at, bytes) => chosen.patch(at, bytes),
    close: () => chosen.close(),
    abort: async () => {
      await kept.abort().catch(() => undefined);
      await chosen.abort();
    },
  };
};
