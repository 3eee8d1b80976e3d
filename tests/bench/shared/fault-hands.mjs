// @ts-check
/** What the faults bench needs a hand on inside a page. */

/** Runs in every page before the studio: what the faults need a hand on. */
export const hands = () => {
  Object.assign(globalThis, {
    /** Writes that the chosen file still takes. */
    writesTaken: Infinity,
    showSaveFilePicker: async () => {
      const root = await navigator.storage.getDirectory();
      const handle = await root.getFileHandle('chosen.png', { create: true });
      const stream = await handle.createWritable();
      const write = async (/** @type {any} */ part) => {
        const all = /** @type {any} */ (globalThis);
        all.writesTaken -= 1;
        if (all.writesTaken >= 0) return stream.write(part);
        throw new DOMException('The permission was withdrawn', 'NotAllowedError');
      };
      const close = () => stream.close();
      const abort = () => stream.abort();
      return { name: handle.name, createWritable: async () => ({ write, close, abort }) };
    },
  });
};
