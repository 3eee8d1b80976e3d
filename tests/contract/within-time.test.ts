/** A picture that keeps its reader busy for ever is given up, named, and the next one is read. */
import { afterEach, expect, test, vi } from 'vitest';
import type { Reply } from '../../src/contract/errors.ts';
import { StudioError } from '../../src/contract/errors.ts';
import { WorkerPool } from '../../src/calls/pool.ts';
import { runWithin } from '../../src/calls/within-time.ts';
import { InProcessWorker } from './in-process-worker.ts';

interface Reader {
  read(id: string, name: string): Promise<Reply<string>>;
  cancel(id: string): void;
}

const made: InProcessWorker[] = [];
afterEach(() => {
  for (const worker of made.splice(0)) worker.terminate();
});

const busyForEver = vi.fn(() => new Promise<never>(() => undefined));

/** Deaf to every stop while it reads `for-ever.exr`. */
const pool = () =>
  new WorkerPool<Reader>(
    () => {
      const worker = new InProcessWorker({
        cancel: () => undefined,
        read: (_id: string, name: string) =>
          name === 'for-ever.exr' ? busyForEver() : Promise.resolve({ kind: 'done', value: name }),
      });
      made.push(worker);
      return worker as unknown as Worker;
    },
    { size: 1, stopGraceMs: 30 },
  );

const read = (from: WorkerPool<Reader>, name: string, signal?: AbortSignal, mostMs = 60) =>
  runWithin(from, (worker, id) => worker.read(id, name), {
    signal,
    mostMs,
    tooLong: () => new StudioError('damaged', `"${name}" was given up.`, name),
  });

test('what takes too long is refused by name, on one try, and its worker is replaced', async () => {
  const workers = pool();
  const first = read(workers, 'for-ever.exr');
  const second = read(workers, 'pose_02.png');
  await expect(first).rejects.toMatchObject({ code: 'damaged', file: 'for-ever.exr' });
  expect(await second).toEqual({ done: true, value: 'pose_02.png' });
  expect(made).toHaveLength(2);
});

test('time spent waiting for a worker does not count', async () => {
  const workers = pool();
  const before = [read(workers, 'for-ever.exr'), read(workers, 'for-ever.exr')];
  const last = read(workers, 'pose_03.png');
  for (const call of before) await expect(call).rejects.toMatchObject({ code: 'damaged' });
  expect(await last).toEqual({ done: true, value: 'pose_03.png' });
});

test('being stopped meanwhile is an outcome', async () => {
  const halt = new AbortController();
  busyForEver.mockClear();
  const call = read(pool(), 'for-ever.exr', halt.signal, 60_000);
  await vi.waitFor(() => expect(busyForEver).toHaveBeenCalled());
  halt.abort();
  expect(await call).toEqual({ done: false });
});
