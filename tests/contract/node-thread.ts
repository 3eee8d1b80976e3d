/**
 * A Worker for tests in Node that is a thread of its own, so that it can end, or compute for ever, as a
 * browser's can. Its end is told to nobody, as in a browser.
 */
import { createRequire } from 'node:module';
import { Worker as Thread } from 'node:worker_threads';

const { resolve } = createRequire(import.meta.url);
const [comlink, adapter] = ['comlink', 'comlink/dist/umd/node-adapter'].map((name) =>
  JSON.stringify(resolve(name)),
);

export class NodeThread {
  readonly #thread: Thread;
  readonly #listeners = new Map<unknown, (data: unknown) => void>();

  /** @param service source of an object of methods, to be answered by the thread */
  constructor(service: string) {
    this.#thread = new Thread(
      `const { parentPort } = require('node:worker_threads');
       require(${comlink}).expose(${service}, require(${adapter})(parentPort));`,
      { eval: true },
    );
  }

  addEventListener(type: string, listener: unknown): void {
    if (type !== 'message') return;
    const hear = (data: unknown) => (listener as (event: { data: unknown }) => void)({ data });
    this.#listeners.set(listener, hear);
    this.#thread.on('message', hear);
  }

  removeEventListener(_type: string, listener: unknown): void {
    const hear = this.#listeners.get(listener);
    if (hear !== undefined) this.#thread.off('message', hear);
  }

  postMessage(message: unknown, transfer: never[] = []): void {
    this.#thread.postMessage(message, transfer);
  }

  terminate(): void {
    void this.#thread.terminate();
  }
}
