/** Workers that end, or compute for ever, without a word: threads of their own, that really do. */
import { expect, test } from 'vitest';
import { WorkerPool } from '../../src/calls/pool.ts';
import type { Reply } from '../../src/contract/errors.ts';
import { NodeThread } from './node-thread.ts';

interface Weaver {
  weave(id: string): Promise<Reply<string>>;
  cancel(id: string): void;
}

const woven = JSON.stringify({ kind: 'done', value: 'woven' });

/** What befalls a worker under its call. */
const ends = 'process.exit()';
const isStuck = 'for (;;);';
/** Computes without pause through several questions; only then does it hear them. */
const computes = 'const from = Date.now(); while (Date.now() - from < 300);';
/** Yields between steps, as at checkpoints, for longer than a silent worker is given. */
const worksInSteps =
  'for (let i = 0; i < 60; i += 1) await new Promise((resolve) => setTimeout(resolve, 25));';

/** @param times how many workers this befalls, the first first */
const poolOf = (befalls: string, times: number) => {
  const made: NodeThread[] = [];
  const pool = new WorkerPool<Weaver>(
    () => {
      const what = made.length < times ? befalls : '';
      const thread = new NodeThread(`{ cancel() {}, async weave() { ${what}; return ${woven}; } }`);
      made.push(thread);
      return thread as unknown as Worker;
    },
    { size: 1, idleMs: 0, askEveryMs: 20, unansweredMost: 60 },
  );
  return { made, weave: () => pool.run((worker, id) => worker.weave(id)) };
};

test.each([
  ['ends', ends],
  ['computes for ever', isStuck],
])('a worker that %s without a word is replaced, and its call done again', async (_, befalls) => {
  const { made, weave } = poolOf(befalls, 1);
  expect(await weave()).toEqual({ done: true, value: 'woven' });
  expect(made).toHaveLength(2);
});

test.each([
  ['end', ends],
  ['compute for ever', isStuck],
])('a call whose workers all %s fails with what to do', async (_, befalls) => {
  const { made, weave } = poolOf(befalls, 3);
  await expect(weave()).rejects.toMatchObject({
    code: 'worker-lost',
    message: expect.stringContaining('Close other tabs') as string,
  });
  expect(made).toHaveLength(2);
});

test.each([
  ['computes through several questions', computes],
  ['works on in steps', worksInSteps],
])('a worker that %s is slow, not dead', async (_, befalls) => {
  const { made, weave } = poolOf(befalls, 1);
  expect(await weave()).toEqual({ done: true, value: 'woven' });
  expect(made).toHaveLength(1);
});
