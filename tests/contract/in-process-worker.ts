/**
 * A Worker for tests in Node: the real service behind a real message channel, so that requests are
 * cloned and buffers handed over as between threads, in one process.
 */
import { expose } from 'comlink';

type Listener = (event: { data: unknown; preventDefault(): void }) => void;

export class InProcessWorker {
  readonly #near: MessagePort;
  readonly #far: MessagePort;
  readonly #errorListeners = new Set<Listener>();
  terminated = false;
  /** Messages of its that have reached the page. */
  answers = 0;

  constructor(service: object) {
    const { port1, port2 } = new MessageChannel();
    this.#near = port1;
    this.#far = port2;
    expose(service, port2);
    port1.addEventListener('message', () => (this.answers += 1));
    port1.start();
  }

  addEventListener(type: string, listener: Listener): void {
    if (type === 'error') this.#errorListeners.add(listener);
    if (type === 'message') this.#near.addEventListener('message', listener as never);
  }

  removeEventListener(type: string, listener: Listener): void {
    if (type === 'message') this.#near.removeEventListener('message', listener as never);
  }

  postMessage(message: unknown, transfer: Transferable[] = []): void {
    this.#near.postMessage(message, transfer);
  }

  /** As when the browser ends a worker: it answers nothing more, and the page gets an error event. */
  crash(): void {
    this.terminate();
    for (const listener of this.#errorListeners)
      listener({ data: undefined, preventDefault: () => undefined });
  }

  terminate(): void {
    this.terminated = true;
    this.#near.close();
    this.#far.close();
  }
}
