// @ts-check
import { open } from 'node:fs/promises';

/** Writes what is woven to a file, as the studio writes to a chosen one. @param {string} path */
export const fileSink = async (path) => {
  const handle = await open(path, 'w');
  let at = 0;
  return {
    write: async (/** @type {Uint8Array} */ bytes) => {
      await handle.write(bytes, 0, bytes.length, at);
      at += bytes.length;
    },
    patch: async (/** @type {number} */ place, /** @type {Uint8Array} */ bytes) =>
      void (await handle.write(bytes, 0, bytes.length, place)),
    close: () => handle.close(),
    abort: () => handle.close(),
  };
};
