/** Which tab has a job, with a lock manager as the Web Locks standard has it, and channels of Node's. */
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import type { HoldEvents } from '../../src/files/job-hold.ts';
import { createJobHold } from '../../src/files/job-hold.ts';

type Callback = (lock: { name: string } | null) => unknown;

/**
 * Exclusive locks alone. W3C Web Locks: `ifAvailable` calls back with null, `steal` breaks the holder
 * with an AbortError, a signal withdraws a request that still waits.
 */
const lockManager = () => {
  const held = new Map<string, { broken: (error: Error) => void }>();
  const waiting = new Map<string, (() => void)[]>();
  const aborted = () => new DOMException('The lock was taken', 'AbortError');
  const grant = async (name: string, callback: Callback): Promise<unknown> => {
    const own: { broken: (error: Error) => void } = { broken: () => undefined };
    const broken = new Promise<never>((_resolve, reject) => {
      own.broken = reject;
    });
    held.set(name, own);
    try {
      return await Promise.race([Promise.resolve(callback({ name })), broken]);
    } finally {
      if (held.get(name) === own) {
        held.delete(name);
        waiting.get(name)?.shift()?.();
      }
    }
  };
  const request = async (name: string, options: LockOptions, callback: Callback) => {
    const holder = held.get(name);
    if (holder !== undefined && options.ifAvailable === true) return callback(null);
    if (holder !== undefined && options.steal === true) {
      held.delete(name);
      holder.broken(aborted());
    } else if (holder !== undefined)
      await new Promise<void>((resolve, reject) => {
        waiting.set(name, [...(waiting.get(name) ?? []), resolve]);
        options.signal?.addEventListener('abort', () => {
          waiting.set(
            name,
            (waiting.get(name) ?? []).filter((one) => one !== resolve),
          );
          reject(aborted());
        });
      });
    return grant(name, callback);
  };
  return { request };
};

const tab = (events: Partial<HoldEvents> = {}) => {
  const told = {
    beforeHandingOn: vi.fn(async () => undefined),
    onLost: vi.fn(),
    onKeptElsewhere: vi.fn(),
  };
  return { ...told, hold: createJobHold({ ...told, ...events }) };
};

beforeEach(() => {
  vi.stubGlobal('navigator', { locks: lockManager() });
});
afterEach(() => {
  vi.unstubAllGlobals();
});

describe('a job', () => {
  test('is held by the first tab, and free once that has let it go', async () => {
    const [here, there] = [tab(), tab()];
    expect(await here.hold.hold('gull')).toBe('here');
    expect(await here.hold.hold('gull')).toBe('here');
    expect(await there.hold.hold('gull')).toBe('elsewhere');
    expect(await there.hold.isFree('gull')).toBe(false);
    expect(await here.hold.isFree('gull')).toBe(true);
    expect(await there.hold.hold('heron')).toBe('here');
    // Another in its place lets the first go.
    expect(await here.hold.hold('tern')).toBe('here');
    expect(await there.hold.hold('gull')).toBe('here');
  });

  test('is handed on once what was to be kept is kept', async () => {
    const order: string[] = [];
    const here = tab({
      beforeHandingOn: async () => {
        await new Promise((resolve) => setTimeout(resolve, 30));
        order.push('kept');
      },
      onLost: () => order.push('lost'),
    });
    const there = tab();
    await here.hold.hold('gull');
    expect(await there.hold.takeOver('gull')).toBe('here');
    order.push('taken');
    expect(order).toEqual(['kept', 'lost', 'taken']);
    expect(await here.hold.hold('gull')).toBe('elsewhere');
    expect(await here.hold.takeOver('gull')).toBe('here');
    expect(there.onLost).toHaveBeenCalledOnce();
  });

  test('is taken from a tab that does not answer', async () => {
    const here = tab({ beforeHandingOn: () => new Promise(() => undefined) });
    const there = tab();
    await here.hold.hold('gull');
    expect(await there.hold.takeOver('gull')).toBe('here');
    await vi.waitFor(() => expect(here.onLost).toHaveBeenCalledOnce());
    expect(there.onLost).not.toHaveBeenCalled();
  });

  test('is asked for by name: a tab at another job is left in peace', async () => {
    const [here, there] = [tab(), tab()];
    await here.hold.hold('heron');
    await there.hold.takeOver('gull');
    expect(here.onLost).not.toHaveBeenCalled();
    expect(await there.hold.isFree('heron')).toBe(false);
  });

  test('is nobody’s where a browser has no locks', async () => {
    vi.stubGlobal('navigator', {});
    const [here, there] = [tab(), tab()];
    expect(await here.hold.hold('gull')).toBe('unsupported');
    expect(await there.hold.takeOver('gull')).toBe('unsupported');
    expect(await there.hold.isFree('gull')).toBe(true);
  });
});

test('other tabs hear which job was kept, or that the list has changed', async () => {
  const [here, there] = [tab(), tab()];
  here.hold.tellKept('gull');
  here.hold.tellKept();
  await vi.waitFor(() => expect(there.onKeptElsewhere.mock.calls).toEqual([['gull'], [undefined]]));
  expect(here.onKeptElsewhere).not.toHaveBeenCalled();
});
