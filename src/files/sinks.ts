/** Places a sheet can be written to. Each shows a whole file or none. */
import { diskFolders } from '../contract/disk.ts';
import { StudioError, messageOf } from '../contract/errors.ts';
import type { Sink } from '../contract/sink.ts';
import { unlessClosed } from './dialog.ts';
import { nameInText } from '../core/names/shown.ts';
import { privateDisk } from './private-disk.ts';
import { isNoRoom } from './room.ts';

/** A sink whose finished file can be offered for download. */
export interface KeptSink extends Sink {
  /** After close: the finished file. */
  file(): Promise<Blob>;
  /** Removes the finished file. */
  discard(): Promise<void>;
}

export const diskFault = (error: unknown, fileName: string): StudioError => {
  if (isNoRoom(error))
    return new StudioError(
      'no-room',
      `There is no room left to write ${nameInText(fileName)}. Free some disk space, or save to a file of your choice on another disk.`,
      fileName,
    );
  return new StudioError(
    'internal',
    `${nameInText(fileName)} could not be written: ${messageOf(error)}`,
    fileName,
  );
};

const streamSink = (stream: FileSystemWritableFileStream, fileName: string): Sink => {
  const onFault = (error: unknown) => {
    throw diskFault(error, fileName);
  };
  return {
    write: (bytes) => stream.write(bytes).catch(onFault),
    patch: (at, data) => stream.write({ type: 'write', position: at, data }).catch(onFault),
    // The browser writes a separate file and puts it in place on close, so a half file is never seen.
    close: () => stream.close().catch(onFault),
    abort: () => stream.abort(),
  };
};

/** Whether a sheet can be written to the browser's private disk; else memory holds it until it is saved. */
export const hasPrivateDisk = async (): Promise<boolean> => {
  try {
    await privateDisk();
    return 'createWritable' in FileSystemFileHandle.prototype;
  } catch {
    return false;
  }
};

/** A file on the browser's private disk, or in memory where there is none. */
export const openKeptFile = async (fileName: string, mimeType: string): Promise<KeptSink> => {
  try {
    const root = await privateDisk();
    const folder = await root.getDirectoryHandle(diskFolders.sheets, { create: true });
    const diskName = crypto.randomUUID();
    const handle = await folder.getFileHandle(diskName, { create: true });
    const sink = streamSink(await handle.createWritable(), fileName);
    return {
      ...sink,
      abort: async () => {
        await sink.abort();
        await folder.removeEntry(diskName);
      },
      // The disk name has no extension to tell the type by; a slice names it without a copy.
      file: async () => {
        const file = await handle.getFile();
        return file.slice(0, file.size, mimeType);
      },
      discard: () => folder.removeEntry(diskName),
    };
  } catch {
    return memorySink(mimeType);
  }
};

export const memorySink = (mimeType: string): KeptSink => {
  let parts: Blob[] = [];
  return {
    // A Blob for each piece lets the browser move it out of memory when it needs to.
    write: async (bytes) => {
      parts.push(new Blob([bytes]));
    },
    patch: async (at, bytes) => {
      const whole = new Blob(parts);
      parts = [whole.slice(0, at), new Blob([bytes]), whole.slice(at + bytes.length)];
    },
    close: async () => undefined,
    abort: async () => {
      parts = [];
    },
    file: async () => new Blob(parts, { type: mimeType }),
    discard: async () => {
      parts = [];
    },
  };
};

interface SavePicker {
  showSaveFilePicker?: (options: {
    suggestedName: string;
    types: { description: string; accept: Record<string, string[]> }[];
  }) => Promise<FileSystemFileHandle>;
}

export const canChooseFile = (): boolean =>
  typeof (globalThis as SavePicker).showSaveFilePicker === 'function';

export const askForFile = async (
  suggestedName: string,
  type: { readonly description: string; readonly mimeType: string; readonly extension: string },
): Promise<FileSystemFileHandle | undefined> => {
  const { description, mimeType, extension } = type;
  try {
    return await unlessClosed(
      (globalThis as SavePicker).showSaveFilePicker?.({
        suggestedName,
        types: [{ description, accept: { [mimeType]: [extension] } }],
      }),
    );
  } catch (error) {
    throw diskFault(error, suggestedName);
  }
};

/** A file that the person chose. Its old content stays until the new one is whole. */
export const openHandleSink = async (handle: FileSystemFileHandle): Promise<Sink> => {
  try {
    return streamSink(await handle.createWritable(), handle.name);
  } catch (error) {
    throw diskFault(error, handle.name);
  }
};
