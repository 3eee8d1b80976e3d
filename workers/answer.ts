/** How every worker call runs: it can be stopped between steps, and its errors become plain data. */
import { transfer } from 'comlink';
import type { Reply } from '../src/contract/errors.ts';
import { toWorkError } from '../src/contract/errors.ts';
import { loadKernels } from './kernels.ts';

/** Thrown by a checkpoint once its call is stopped. */
export class StoppedSignal extends Error {}

/** Milliseconds a worker may compute before it looks for a message that stops it. */
const CHECK_EVERY_MS = 50;

/** Only a macrotask lets the event loop take a message; a resolved promise does not. */
const yieldToMessages = (): Promise<void> =>
  new Promise((resolve) => {
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = () => {
      port1.close();
      resolve();
    };
    port2.postMessage(undefined);
  });

/** Awaited between the steps of a call; it throws once the call is stopped. */
export type Checkpoint = () => Promise<void>;

/** Takes long work step by step, so that it can be stopped between them. */
export const inSteps = async <T>(
  work: Generator<undefined, T>,
  checkpoint: Checkpoint,
): Promise<T> => {
  for (;;) {
    const step = work.next();
    if (step.done === true) return step.value;
    await checkpoint();
  }
};

export class Calls {
  readonly #running = new Set<string>();
  readonly #cancelled = new Set<string>();

  readonly cancel = (id: string): void => {
    if (this.#running.has(id)) this.#cancelled.add(id);
  };

  /**
   * A worker's method: runs `work` under the id of its request.
   * @param buffersOf the parts of the answer that are transferred instead of copied
   */
  method<Request extends { readonly id: string }, More extends unknown[], T>(
    work: (request: Request, checkpoint: Checkpoint, ...more: More) => Promise<T>,
    buffersOf: (value: T) => Transferable[] = () => [],
  ): (request: Request, ...more: More) => Promise<Reply<T>> {
    return (request, ...more) =>
      this.#run(request.id, (checkpoint) => work(request, checkpoint, ...more), buffersOf);
  }

  async #run<T>(
    id: string,
    work: (checkpoint: Checkpoint) => Promise<T>,
    buffersOf: (value: T) => Transferable[],
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
      await loadKernels();
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
