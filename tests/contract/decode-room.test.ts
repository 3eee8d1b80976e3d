/** Many small pictures are decoded at once, a large one alone, and nobody waits for ever. */
import { describe, expect, test } from 'vitest';
import { DecodeRoom } from '../../src/calls/decode-room.ts';
import type { Outcome } from '../../src/contract/errors.ts';

/** Work that lasts until it is told to end. */
const workOf = (under: Set<string>, name: string) => {
  let end: () => void = () => undefined;
  const ended = new Promise<Outcome<string>>((resolve) => {
    end = () => {
      under.delete(name);
      resolve({ done: true, value: name });
    };
  });
  const begin = () => {
    under.add(name);
    return ended;
  };
  return { begin, end: () => end() };
};

/** Lets everything go on that can. */
const settle = () => new Promise((resolve) => setTimeout(resolve));

describe('room for decoding', () => {
  test('small ones share it, a large one waits for all of it and goes before later small ones', async () => {
    const room = new DecodeRoom(100);
    const under = new Set<string>();
    const [a, b, large, late] = ['a', 'b', 'large', 'late'].map((name) => workOf(under, name));
    const all = [
      room.hold(40, undefined, a!.begin),
      room.hold(60, undefined, b!.begin),
      room.hold(500, undefined, large!.begin),
      room.hold(10, undefined, late!.begin),
    ];
    await settle();
    expect([...under]).toEqual(['a', 'b']);
    a!.end();
    await settle();
    expect([...under]).toEqual(['b']);
    b!.end();
    await settle();
    expect([...under]).toEqual(['large']);
    large!.end();
    await settle();
    expect([...under]).toEqual(['late']);
    late!.end();
    expect(await Promise.all(all)).toHaveLength(4);
  });

  test('one that fails gives its room back', async () => {
    const room = new DecodeRoom(100);
    const failing = room.hold(100, undefined, () => Promise.reject(new Error('damaged')));
    const next = room.hold(100, undefined, () => Promise.resolve({ done: true, value: 'next' }));
    await expect(failing).rejects.toThrow('damaged');
    expect(await next).toEqual({ done: true, value: 'next' });
  });

  test('one that is stopped while it waits is never begun, and lets others by', async () => {
    const room = new DecodeRoom(100);
    const under = new Set<string>();
    const [first, large, small] = ['first', 'large', 'small'].map((name) => workOf(under, name));
    const halt = new AbortController();
    const held = room.hold(60, undefined, first!.begin);
    const stopped = room.hold(100, halt.signal, large!.begin);
    const other = room.hold(40, undefined, small!.begin);
    await settle();
    expect([...under]).toEqual(['first']);
    halt.abort();
    expect(await stopped).toEqual({ done: false });
    await settle();
    expect([...under]).toEqual(['first', 'small']);
    first!.end();
    small!.end();
    await Promise.all([held, other]);
    expect(await room.hold(1, halt.signal, large!.begin)).toEqual({ done: false });
  });
});
