/**
 * Memory for decoded pictures, shared by all calls that decode: many small ones at once, a large one
 * alone. What waits is served in the order it came, so that small ones never keep a large one out.
 */
import type { Outcome } from '../contract/errors.ts';
import { stopped } from '../contract/errors.ts';

interface Waiting {
  readonly bytes: number;
  readonly begin: () => void;
}

export class DecodeRoom {
  readonly #bytes: number;
  readonly #waiting: Waiting[] = [];
  #taken = 0;

  constructor(bytes: number) {
    this.#bytes = bytes;
  }

  /**
   * Does the work once there is room for it, and gives the room back whatever comes of it. What is larger
   * than all of the room waits until it has all of it.
   */
  async hold<T>(
    bytes: number,
    signal: AbortSignal | undefined,
    work: () => Promise<Outcome<T>>,
  ): Promise<Outcome<T>> {
    const wanted = Math.min(bytes, this.#bytes);
    if (!(await this.#enter(wanted, signal))) return stopped;
    try {
      return await work();
    } finally {
      this.#taken -= wanted;
      this.#serve();
    }
  }

  /** @returns false where it was stopped before there was room */
  #enter(bytes: number, signal: AbortSignal | undefined): Promise<boolean> {
    if (signal?.aborted === true) return Promise.resolve(false);
    return new Promise((resolve) => {
      const leave = () => {
        this.#waiting.splice(this.#waiting.indexOf(waiting), 1);
        resolve(false);
        this.#serve();
      };
      const waiting = {
        bytes,
        begin: () => {
          signal?.removeEventListener('abort', leave);
          resolve(true);
        },
      };
      signal?.addEventListener('abort', leave, { once: true });
      this.#waiting.push(waiting);
      this.#serve();
    });
  }

  #serve(): void {
    for (let next = this.#waiting[0]; next !== undefined; next = this.#waiting[0]) {
      if (this.#taken + next.bytes > this.#bytes) return;
      this.#waiting.shift();
      this.#taken += next.bytes;
      next.begin();
    }
  }
}

/** Four frames of 30 megapixels and 8 bits side by side. */
const ROOM_BYTES = 2 ** 30;

export const decodeRoom = new DecodeRoom(ROOM_BYTES);
