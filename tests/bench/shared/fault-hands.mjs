// @ts-check
/** What the faults bench needs a hand on inside a page. */

/** Runs in every page before the studio: what the faults need a hand on. */
export const hands = () => {
  const own = globalThis.Worker;
  /** @type {{ worker: Worker, name: string }[]} */
  const made = [];
  Object.assign(globalThis, {
    Worker: class extends own {
      /** @param {string | URL} address @param {WorkerOptions} [options] */
      constructor(address, options) {
        super(address, options);
        made.push({ worker: this, name: String(address) });
      }
    },
    /** Ends weave workers, each by its own draw, at least one; word of it comes as from a browser. */
    endWeavers: (/** @type {number[]} */ draws) => {
      const weavers = made.splice(0).filter(({ name }) => name.includes('weave'));
      const dead = weavers.filter((_, at) => at === 0 || (draws[at % draws.length] ?? 0) < 0.5);
      for (const { worker } of dead) worker.terminate();
      for (const { worker } of dead)
        worker.dispatchEvent(new ErrorEvent('error', { cancelable: true }));
      return dead.length;
    },
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
