/** Prepared frames on a private disk that fills up: a part of one never passes for the whole. */
import { afterEach, expect, test, vi } from 'vitest';
import { writePrepared } from '../../workers/prepared-disk.ts';

declare global {
  // Of workers alone, whose types the tests do not have.
  interface FileSystemFileHandle {
    createSyncAccessHandle(): Promise<{ write(data: BufferSource): number; close(): void }>;
  }
}

/** A folder of the File System standard, whose access handles take at most `room` bytes. */
const disk = (room: number) => {
  const files = new Map<string, Uint8Array<ArrayBuffer>>();
  const folder = {
    getFileHandle: async (name: string) => ({
      createSyncAccessHandle: async () => ({
        // https://fs.spec.whatwg.org: write() returns the number of bytes written, which may be fewer.
        write: (pixels: Uint16Array<ArrayBuffer>) => {
          const bytes = new Uint8Array(pixels.buffer, pixels.byteOffset, pixels.byteLength);
          files.set(name, bytes.slice(0, room));
          return Math.min(room, bytes.length);
        },
        close: () => undefined,
      }),
      getFile: async () => new Blob([files.get(name) ?? new Uint8Array()]),
    }),
    removeEntry: async (name: string) => void files.delete(name),
  };
  vi.stubGlobal('navigator', {
    storage: { getDirectory: async () => ({ getDirectoryHandle: async () => folder }) },
  });
  return files;
};

afterEach(() => {
  vi.unstubAllGlobals();
});

const pixels = Uint16Array.from({ length: 300 }, (_, at) => at * 200);

test('what fits is written whole', async () => {
  disk(1000);
  const written = await writePrepared(pixels);
  const bytes = new Uint8Array((await written?.file.arrayBuffer()) ?? new ArrayBuffer(0));
  expect(Buffer.from(bytes).equals(Buffer.from(pixels.buffer))).toBe(true);
});

test('what fits in part is given up, and its part removed', async () => {
  const files = disk(599);
  expect(await writePrepared(pixels)).toBeUndefined();
  expect(files.size).toBe(0);
});
