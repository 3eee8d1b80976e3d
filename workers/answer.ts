/** How every worker call runs: it can be stopped between steps, and its errors become plain data. */
import { transfer } from 'comlink';
import type { Reply } from '../src/contract/errors.ts';
import { toWorkError } from '../src/contract/errors.ts';

class StoppedSignal extends Error {}

/** Milliseconds a worker may compute before it looks for a message that stops it. */
const CHECK_EVERY_MS = 50;

/** Let the event loop take a message: only a macrotask does, a resolved promise does not. */
const yieldToMessages = (): Promise<void> =>
  new Promise((resolve) => {
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = () => {
      port1.close();
      resolve();
    };
    port2.postMessage(undefined);
  });

export class Calls {
  readonly #running = new Set<string>();
  readonly #cancelled = new Set<string>();

  cancel(id: string): void {
    if (this.#running.has(id)) this.#cancelled.add(id);
  }

  /**
   * Runs one call. `checkpoint` is awaited between its steps; `buffersOf` names what of the answer
   * is handed over instead of copied.
   */
  async run<T>(
    id: string,
    work: (checkpoint: () => Promise<void>) => Promise<T>,
    buffersOf: (value: T) => Transferable[] = () => [],
  ): Promise<Reply<T>> {
    this.#running.add(id);
    let checkedAt = performance.now();
    const checkpoint = async () => {
      if (performance.now() - checkedAt > CHECK_EVERY_MS) {
        await yieldToMessages();
        checkedAt = performance.now();
      }
      if (this.#cancelled.has(id)) throw new StoppedSignal();
    };
    try {
      const value = await work(checkpoint);
      return transfer({ kind: 'done', value } as const, buffersOf(value));
    } catch (error) {
      if (error instanceof StoppedSignal) return { kind: 'stopped' };
      return { kind: 'failed', error: toWorkError(error) };
    } finally {
      this.#running.delete(id);
      this.#cancelled.delete(id);
    }
  }
}
