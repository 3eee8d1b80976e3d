/**
 * A pool of workers of one kind: first come, first served. Each call can be stopped, and none is left
 * hanging. Workers are pure, so a call whose worker dies or is stuck is tried once more on a new one.
 */
import type { Remote } from 'comlink';
import { releaseProxy, wrap } from 'comlink';
import type { Outcome, Reply, WorkError } from '../contract/errors.ts';
import { fromWorkError, stopped } from '../contract/errors.ts';
import type { AnyWorker } from '../contract/worker.ts';
import type { WatchLimits } from './watch.ts';
import { watchWorker } from './watch.ts';

interface Call<W> {
  readonly id: string;
  readonly run: (worker: Remote<W>, id: string) => Promise<Reply<unknown>>;
  readonly settle: (reply: Reply<unknown>) => void;
  attempts: number;
  settled: boolean;
  wantsStop: boolean;
}

interface Member<W> {
  readonly thread: Worker;
  readonly remote: Remote<W>;
  readonly calls: Set<Call<W>>;
  /** True once it has answered: its script was loaded and runs. */
  begun: boolean;
  endWatch: () => void;
  idleTimer: ReturnType<typeof setTimeout> | undefined;
}

export interface PoolOptions extends Partial<WatchLimits> {
  /** Most workers at a time. */
  readonly size: number;
  /** Calls a worker holds at once: 2 lets one read its input while the other computes. */
  readonly depth?: number;
  /** A worker without work this long is ended, to give its memory back. */
  readonly idleMs?: number;
  /** A worker that does not answer a stop this long is ended and replaced. */
  readonly stopGraceMs?: number;
}

/**
 * Two minutes without an answer. A worker that weaves computes at most for one band at a stretch, which takes
 * tenths of a second; this leaves room for a machine a hundred times as slow, or one that swaps its memory out.
 */
const defaults = {
  depth: 1,
  idleMs: 30_000,
  stopGraceMs: 2000,
  startMs: 30_000,
  askEveryMs: 5000,
  unansweredMost: 24,
};

/**
 * Ten minutes, for pools that decode and read pictures: some libraries compute without pause from a file's first
 * byte to its last. The longest such stretch is a picture of 200 megapixels, the most that is read. The aim for one of 12 is
 * 3 s (`npm run bench -- photo-speed`), and the time grows with the pixels: 50 s, on a slow machine some times that.
 */
export const readsPictures = { unansweredMost: 120 };

export class WorkerPool<W extends Pick<AnyWorker, 'cancel'>> {
  readonly #spawn: () => Worker;
  readonly #options: Required<PoolOptions>;
  readonly #members: Member<W>[] = [];
  readonly #queue: Call<W>[] = [];
  #serial = 0;
  /** How many workers in a row never began. */
  #startless = 0;

  constructor(spawn: () => Worker, options: PoolOptions) {
    this.#spawn = spawn;
    this.#options = { ...defaults, ...options };
  }

  get size(): number {
    return this.#options.size;
  }

  /** Runs a call on the next free worker. Throws StudioError; a stop is an outcome. */
  async run<T>(
    run: (worker: Remote<W>, id: string) => Promise<Reply<T>>,
    signal?: AbortSignal,
  ): Promise<Outcome<T>> {
    if (signal?.aborted === true) return stopped;
    const reply = await new Promise<Reply<T>>((resolve) => {
      this.#serial += 1;
      const call: Call<W> = {
        id: `call-${this.#serial}`,
        run,
        attempts: 0,
        settled: false,
        wantsStop: false,
        settle: (answer) => {
          if (call.settled) return;
          call.settled = true;
          signal?.removeEventListener('abort', stop);
          resolve(answer as Reply<T>);
        },
      };
      const stop = () => this.#stop(call);
      signal?.addEventListener('abort', stop, { once: true });
      this.#queue.push(call);
      this.#serve();
    });
    if (reply.kind === 'failed') throw fromWorkError(reply.error);
    return reply.kind === 'done' ? { done: true, value: reply.value } : stopped;
  }

  /** Hands waiting calls to the least busy workers, making new ones up to the pool's size. */
  #serve(): void {
    while (this.#queue.length > 0) {
      const idle = this.#members.find((member) => member.calls.size === 0);
      const member = idle ?? (this.#wantsMore() ? this.#add() : this.#leastBusy());
      if (member.calls.size >= this.#options.depth) return;
      this.#give(member, this.#queue.shift() as Call<W>);
    }
  }

  /** When new workers do not begin, the present ones do all the work. */
  #wantsMore(): boolean {
    const { length } = this.#members;
    return length === 0 || (length < this.#options.size && this.#startless === 0);
  }

  #leastBusy(): Member<W> {
    return this.#members.reduce((least, member) =>
      member.calls.size < least.calls.size ? member : least,
    );
  }

  #add(): Member<W> {
    const thread = this.#spawn();
    const member: Member<W> = {
      thread,
      remote: wrap<W>(thread),
      calls: new Set(),
      begun: false,
      endWatch: () => undefined,
      idleTimer: undefined,
    };
    thread.addEventListener('error', (event) => {
      event.preventDefault();
      if (member.begun) this.#lose(member);
      else this.#giveUpOn(member);
    });
    thread.addEventListener('messageerror', () => this.#lose(member));
    this.#members.push(member);
    member.endWatch = watchWorker(
      member.remote as unknown as Remote<AnyWorker>,
      () => member.calls.size > 0,
      this.#options,
      {
        begun: () => {
          member.begun = true;
          this.#startless = 0;
        },
        neverBegan: () => this.#giveUpOn(member),
        gone: () => this.#lose(member),
      },
    );
    return member;
  }

  /**
   * A worker never loaded its script. Its calls were not begun, so other workers take them, or a second new one.
   * With none that works they fail, and the next call tries again.
   */
  #giveUpOn(member: Member<W>): void {
    if (!this.#members.includes(member) || member.begun) return;
    const orphans = [...member.calls];
    member.calls.clear();
    this.#end(member);
    this.#startless += 1;
    const isHopeless = this.#startless > 1 && this.#members.length === 0;
    for (const call of orphans) {
      call.attempts -= 1;
      if (call.wantsStop) call.settle({ kind: 'stopped' });
      else if (isHopeless) call.settle({ kind: 'failed', error: neverBegan });
    }
    this.#queue.unshift(...orphans.filter(({ settled }) => !settled));
    this.#serve();
  }

  #give(member: Member<W>, call: Call<W>): void {
    clearTimeout(member.idleTimer);
    member.calls.add(call);
    call.attempts += 1;
    void call
      .run(member.remote, call.id)
      .catch((error: unknown): Reply<unknown> => ({
        kind: 'failed',
        error: { code: 'internal', message: String(error) },
      }))
      .then((reply) => {
        if (!member.calls.delete(call)) return; // The worker was given up; the call went elsewhere.
        call.settle(reply);
        this.#rest(member);
        this.#serve();
      });
  }

  #rest(member: Member<W>): void {
    if (member.calls.size > 0) return;
    member.idleTimer = setTimeout(() => this.#end(member), this.#options.idleMs);
  }

  #stop(call: Call<W>): void {
    call.wantsStop = true;
    const queued = this.#queue.indexOf(call);
    if (queued >= 0) {
      this.#queue.splice(queued, 1);
      call.settle({ kind: 'stopped' });
      return;
    }
    const member = this.#members.find(({ calls }) => calls.has(call));
    if (member === undefined) return;
    void (member.remote as Remote<Pick<AnyWorker, 'cancel'>>).cancel(call.id);
    setTimeout(() => {
      if (member.calls.has(call)) this.#lose(member);
    }, this.#options.stopGraceMs);
  }

  /** A worker died or does not answer: end it, and try its calls once more elsewhere. */
  #lose(member: Member<W>): void {
    const orphans = [...member.calls];
    member.calls.clear();
    this.#end(member);
    const again = orphans.filter((call) => {
      if (call.wantsStop) call.settle({ kind: 'stopped' });
      else if (call.attempts >= 2) call.settle({ kind: 'failed', error: workerLost });
      return !call.settled;
    });
    // Use a new worker: if the browser ended several at once, the others may be dead too without our knowing yet.
    if (again.length > 0) {
      const fresh = this.#add();
      for (const call of again) this.#give(fresh, call);
    }
    this.#serve();
  }

  #end(member: Member<W>): void {
    clearTimeout(member.idleTimer);
    member.endWatch();
    const at = this.#members.indexOf(member);
    if (at >= 0) this.#members.splice(at, 1);
    member.remote[releaseProxy]();
    member.thread.terminate();
  }
}

const workerLost: WorkError = {
  code: 'worker-lost',
  message:
    'A background worker was ended by the browser or no longer answered, twice in a row: most likely for want of ' +
    'memory. Close other tabs, then try again.',
};

const neverBegan: WorkError = {
  code: 'worker-lost',
  message:
    'A part of the studio could not be loaded: the server does not answer, or has a newer studio by now. ' +
    'Save what is woven, then reload the page.',
};

/** Outside a browser (tests in Node) there is no navigator. */
const { navigator: browser } = globalThis as { readonly navigator?: Navigator };

/** Threads worth having: one for each core the browser admits to, eight at the most. */
export const poolSize = (): number => Math.max(1, Math.min(8, browser?.hardwareConcurrency ?? 2));
