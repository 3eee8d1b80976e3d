/** Files that the system opens with the installed studio: "Open with" on a job file or a picture. */
import { messageOf } from '../../contract/errors.ts';
import type { Studio } from '../studio.ts';
import { handOverFiles } from './hand-over.ts';

/** As far as it is used of what browsers with file handling have; TypeScript does not know it yet. */
interface LaunchQueue {
  setConsumer(take: (launch: { readonly files?: readonly FileSystemHandle[] }) => void): void;
}

const openAll = async (studio: Studio, handles: readonly FileSystemHandle[]): Promise<void> => {
  const isFile = (handle: FileSystemHandle): handle is FileSystemFileHandle =>
    handle.kind === 'file';
  try {
    const files = await Promise.all(handles.filter(isFile).map((handle) => handle.getFile()));
    if (files.length > 0) await handOverFiles(studio, files);
  } catch (error) {
    studio.tell(`What you opened could not be read: ${messageOf(error)}. Drop it here instead.`);
  }
};

/** Takes what the studio was started with, and what is opened later. They wait in the browser until this is called. */
export const takeLaunches = (studio: Studio): void => {
  const { launchQueue } = globalThis as { readonly launchQueue?: LaunchQueue };
  launchQueue?.setConsumer(({ files = [] }) => void openAll(studio, files));
};
