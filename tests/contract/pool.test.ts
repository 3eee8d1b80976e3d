/** The pool keeps its promises to the page when workers are slow, dead or deaf. */
import { afterEach, describe, expect, test, vi } from 'vitest';
import type { Reply } from '../../src/contract/errors.ts';
import { WorkerPool } from '../../src/calls/pool.ts';
import { InProcessWorker } from './in-process-worker.ts';

interface Echo {
  echo(id: string, text: string): Promise<Reply<string>>;
  hang(id: string): Promise<Reply<string>>;
  fail(id: string): Promise<Reply<string>>;
  cancel(id: string): void;
}

const made: InProcessWorker[] = [];

const poolOf = (service: Partial<Echo>, size = 1, extra: object = {}) =>
  new WorkerPool<Echo>(
    () => {
      const worker = new InProcessWorker({ cancel: () => undefined, ...service });
      made.push(worker);
      return worker as unknown as Worker;
    },
    { size, ...extra },
  );

const echo: Echo['echo'] = async (_id, text) => ({ kind: 'done', value: text });
const hang = vi.fn<Echo['hang']>(() => new Promise(() => undefined));

afterEach(() => {
  for (const worker of made.splice(0)) worker.terminate();
  hang.mockClear();
});

/** The newest worker is there and has taken up a call that hangs; `calls` so far, over all workers. */
const hangs = (calls: number) =>
  vi.waitFor(() => {
    expect(hang).toHaveBeenCalledTimes(calls);
    expect(made.at(-1)?.answers).toBeGreaterThan(0);
  });

describe('WorkerPool', () => {
  test('answers every call, more calls than workers', async () => {
    const pool = poolOf({ echo }, 2);
    const answers = await Promise.all(
      Array.from({ length: 20 }, (_, i) => pool.run((w, id) => w.echo(id, `call ${i}`))),
    );
    expect(answers.map((a) => (a.done ? a.value : ''))).toEqual(
      Array.from({ length: 20 }, (_, i) => `call ${i}`),
    );
    expect(made).toHaveLength(2);
  });

  test('a failure crosses with its code and file', async () => {
    const pool = poolOf({
      fail: async () => ({
        kind: 'failed',
        error: { code: 'damaged', message: 'It breaks off.', file: 'a.png' },
      }),
    });
    await expect(pool.run((w, id) => w.fail(id))).rejects.toMatchObject({
      name: 'StudioError',
      code: 'damaged',
      file: 'a.png',
    });
  });

  test('a call whose worker dies is tried once more on a new worker', async () => {
    let tries = 0;
    const pool = poolOf({
      echo: async (id, text) => {
        tries += 1;
        return tries === 1 ? hang(id) : { kind: 'done', value: text };
      },
    });
    const answer = pool.run((w, id) => w.echo(id, 'again'));
    await hangs(1);
    made[0]?.crash();
    expect(await answer).toEqual({ done: true, value: 'again' });
    expect(made).toHaveLength(2);
  });

  test('a call that kills two workers is given up with worker-lost', async () => {
    const pool = poolOf({ hang });
    const answer = pool.run((w, id) => w.hang(id));
    const refused = expect(answer).rejects.toMatchObject({ code: 'worker-lost' });
    await hangs(1);
    made[0]?.crash();
    await hangs(2);
    made[1]?.crash();
    await refused;
  });

  test('workers that die together cost a call one try, not one each', async () => {
    let tries = 0;
    const pool = poolOf(
      {
        echo: async (_id, text) => ({ kind: 'done', value: text }),
        hang: async (id) => {
          tries += 1;
          return tries === 1 ? hang(id) : { kind: 'done', value: 'woven after all' };
        },
      },
      2,
    );
    const answer = pool.run((w, id) => w.hang(id));
    await pool.run((w, id) => w.echo(id, 'now a second worker is there, and idle'));
    expect(made).toHaveLength(2);
    // As a browser tells it: one after the other, though both were dead before the first word.
    const dead = [...made];
    for (const worker of dead) worker.terminate();
    for (const worker of dead) worker.crash();
    expect(await answer).toEqual({ done: true, value: 'woven after all' });
  });

  /** Workers by turns: those whose script comes, and those whose script does not. */
  const poolAs = (comes: (at: number) => boolean, toldOf: boolean, extra: object = {}) => {
    let spawned = 0;
    const pool = new WorkerPool<Echo>(
      () => {
        const worker = new InProcessWorker({ echo, hang, cancel: () => undefined });
        made.push(worker);
        if (!comes(spawned)) {
          worker.terminate();
          if (toldOf) setTimeout(() => worker.crash());
        }
        spawned += 1;
        return worker as unknown as Worker;
      },
      { size: 3, depth: 2, ...extra },
    );
    return { pool, spawned: () => spawned };
  };
  const echoes = (pool: WorkerPool<Echo>, count: number) =>
    Promise.all(Array.from({ length: count }, (_, i) => pool.run((w, id) => w.echo(id, `${i}`))));

  test.each([true, false])(
    'where new workers do not come any more, told of it: %s, those that are there do all the work',
    async (toldOf) => {
      const { pool, spawned } = poolAs((at) => at === 0, toldOf, { startMs: 50 });
      await echoes(pool, 1);
      const answers = await echoes(pool, 12);
      expect(answers.map((a) => (a.done ? a.value : ''))).toEqual(
        Array.from({ length: 12 }, (_, i) => `${i}`),
      );
      expect(spawned()).toBeLessThanOrEqual(3);
    },
  );

  test('where none comes at all the call fails with what to do, and the next is tried again', async () => {
    let there = false;
    const { pool } = poolAs(() => there, true);
    await expect(echoes(pool, 4)).rejects.toMatchObject({
      code: 'worker-lost',
      message: expect.stringContaining('reload the page') as string,
    });
    there = true;
    expect(await echoes(pool, 2)).toHaveLength(2);
  });

  test('stopping a waiting call never reaches a worker', async () => {
    const pool = poolOf({ hang, echo });
    void pool.run((w, id) => w.hang(id)).catch(() => undefined);
    const halt = new AbortController();
    const reached = vi.fn();
    const answer = pool.run((w, id) => {
      reached();
      return w.echo(id, 'no');
    }, halt.signal);
    halt.abort();
    expect(await answer).toEqual({ done: false });
    expect(reached).not.toHaveBeenCalled();
  });

  test('a worker that hears the stop answers it and lives on', async () => {
    const cancelled: string[] = [];
    let stopIt: (() => void) | undefined;
    hang.mockImplementationOnce(
      () => new Promise((resolve) => (stopIt = () => resolve({ kind: 'stopped' }))),
    );
    const pool = poolOf({
      hang,
      cancel: (id) => {
        cancelled.push(id);
        stopIt?.();
      },
    });
    const halt = new AbortController();
    const answer = pool.run((w, id) => w.hang(id), halt.signal);
    await hangs(1);
    halt.abort();
    expect(await answer).toEqual({ done: false });
    // The first is how the pool asks whether the worker is there.
    expect(cancelled).toEqual(['', expect.stringMatching(/./)]);
    expect(made[0]?.terminated).toBe(false);
  });

  test('a worker that is deaf to the stop is ended and replaced', async () => {
    const pool = poolOf({ hang, echo }, 1, { stopGraceMs: 30 });
    const halt = new AbortController();
    const answer = pool.run((w, id) => w.hang(id), halt.signal);
    await hangs(1);
    halt.abort();
    expect(await answer).toEqual({ done: false });
    expect(made[0]?.terminated).toBe(true);
    expect(await pool.run((w, id) => w.echo(id, 'next'))).toEqual({ done: true, value: 'next' });
  });

  test('a worker without work is ended after its idle time', async () => {
    const pool = poolOf({ echo }, 1, { idleMs: 30 });
    await pool.run((w, id) => w.echo(id, 'one'));
    await vi.waitFor(() => expect(made[0]?.terminated).toBe(true));
    expect(await pool.run((w, id) => w.echo(id, 'two'))).toEqual({ done: true, value: 'two' });
  });
});
