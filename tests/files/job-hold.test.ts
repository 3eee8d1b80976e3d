/** Which tab has a job, with locks as the standard has them, and channels of Node's. */
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import type { HoldEvents } from '../../src/files/job-hold.ts';
import { createJobHold } from '../../src/files/job-hold.ts';
import { lockManager } from './locks.ts';

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

/** What no page of the studio says; any page of the same address can. */
const hostile: readonly unknown[] = [
  null,
  undefined,
  0,
  'hand-over',
  [],
  ['hand-over', 'gull'],
  {},
  { kind: 'hand-over' },
  { kind: 'hand-over', jobId: 7 },
  { kind: 'hand-over', jobId: ['gull'] },
  { kind: 'hand-over', jobId: { toString: 'gull' } },
  { kind: 'hand-over', jobId: '' },
  { kind: 'kept', jobId: null },
  { kind: 'kept', jobId: 7 },
  { kind: 'kept', jobId: 'g'.repeat(100_000) },
  { kind: 'forget', jobId: 'gull' },
  { kind: { toString: 'kept' } },
  new Map([['kind', 'kept']]),
  new Uint8Array(8),
  new Error('kept'),
];

test('messages that no page of the studio sends do nothing', async () => {
  const [here, there] = [tab(), tab()];
  await here.hold.hold('gull');
  const other = new BroadcastChannel('tiltloom-jobs');
  for (const message of hostile) other.postMessage(message);
  // Behind them one of ours: messages come in the order they were sent.
  other.postMessage({ kind: 'kept', jobId: 'heron' });
  await vi.waitFor(() => expect(here.onKeptElsewhere).toHaveBeenCalled());
  expect(here.onKeptElsewhere.mock.calls).toEqual([['heron']]);
  expect(here.beforeHandingOn).not.toHaveBeenCalled();
  expect(await there.hold.isFree('gull')).toBe(false);
  other.close();
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
    let goOn: (() => void) | undefined;
    const here = tab({
      beforeHandingOn: async () => {
        await new Promise<void>((resolve) => (goOn = resolve));
        order.push('kept');
      },
      onLost: () => order.push('lost'),
    });
    const there = tab();
    await here.hold.hold('gull');
    const taking = there.hold.takeOver('gull').then((held) => {
      order.push('taken');
      return held;
    });
    await vi.waitFor(() => expect(goOn).toBeDefined());
    expect(order).toEqual([]);
    goOn?.();
    expect(await taking).toBe('here');
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
