// @vitest-environment jsdom
/**
 * What must not be broken off, in one tab and between tabs, with locks as the W3C's Web Locks API has them and
 * the question on leaving as the HTML standard has it (`beforeunload`, prevented).
 */
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { createAskBeforeLeaving } from '../../src/studio/ask-before-leaving.ts';
import type { Tasks } from '../../src/studio/tasks.ts';
import { createTasks } from '../../src/studio/tasks.ts';
import { isAwaited, lockManager } from '../files/locks.ts';

/** Tasks of its own are what a tab has; locks are what tabs share. */
const openTab = () => createTasks(createAskBeforeLeaving());

/** As a sheet of a job is woven. */
const weave = <T>(tab: Tasks, writes: string, work: () => Promise<T>): Promise<T> =>
  tab.run({ kind: 'sheet', jobId: 'a', writes }, work);

const isAskedOnLeaving = () => !dispatchEvent(new Event('beforeunload', { cancelable: true }));

/** A task that ends when it is told to, and tells when it began. */
const task = () => {
  let end = () => {};
  let fail = () => {};
  const ends = new Promise<void>((resolve, reject) => {
    end = resolve;
    fail = () => reject(new Error('no room'));
  });
  const begin = vi.fn(() => ends);
  return { begin, end, fail, hasBegun: () => vi.waitFor(() => expect(begin).toHaveBeenCalled()) };
};

let here: Tasks;
let there: Tasks;
beforeEach(() => {
  sessionStorage.clear();
  localStorage.clear();
  vi.stubGlobal('navigator', { locks: lockManager() });
  [here, there] = [openTab(), openTab()];
});
afterEach(() => void vi.unstubAllGlobals());

describe('a change of version', () => {
  const changed = () => vi.fn(async () => undefined);
  /** Locks are given back a moment after what held them has ended. */
  const isMadeSoon = (tab: Tasks) =>
    vi.waitFor(async () => expect(await tab.unlessWriting(changed())).toBe(true));

  it('is made where nothing is woven', async () => {
    const change = changed();
    expect(await here.unlessWriting(change)).toBe(true);
    expect(change).toHaveBeenCalledOnce();
  });

  it('is refused while this tab or another weaves, and made afterwards', async () => {
    const sheet = task();
    const woven = weave(here, 'gull.png', sheet.begin);
    await sheet.hasBegun();
    const change = changed();
    expect(await here.unlessWriting(change)).toBe(false);
    expect(await there.unlessWriting(change)).toBe(false);
    expect(change).not.toHaveBeenCalled();
    sheet.end();
    await woven;
    await isMadeSoon(there);
    await isMadeSoon(here);
  });

  it('waits for the last of several weaves, also of one that failed', async () => {
    const [sheet, strip] = [task(), task()];
    const first = weave(here, 'gull.png', sheet.begin);
    const second = weave(there, 'strip.png', strip.begin);
    // Tabs weave at the same time.
    await Promise.all([sheet.hasBegun(), strip.hasBegun()]);
    sheet.fail();
    await expect(first).rejects.toThrow('no room');
    expect(await here.unlessWriting(changed())).toBe(false);
    strip.end();
    await second;
    await isMadeSoon(here);
  });

  it('lets no tab begin to weave until it is through', async () => {
    const change = task();
    const sheet = task();
    const changing = here.unlessWriting(change.begin);
    await change.hasBegun();
    const woven = weave(there, 'gull.png', sheet.begin);
    await isAwaited('tiltloom-weaving');
    expect(sheet.begin).not.toHaveBeenCalled();
    // The page may go: it is not asked about, and nothing was begun that could be missed.
    expect(isAskedOnLeaving()).toBe(false);
    expect(there.isWriting()).toBe(false);
    expect(await openTab().brokenOff('a')).toBeUndefined();
    change.end();
    expect(await changing).toBe(true);
    await sheet.hasBegun();
    sheet.end();
    await woven;
  });

  it('asks this tab alone where a browser has no locks', async () => {
    vi.stubGlobal('navigator', {});
    const sheet = task();
    const woven = weave(here, 'gull.png', sheet.begin);
    await sheet.hasBegun();
    expect(await here.unlessWriting(changed())).toBe(false);
    sheet.end();
    await woven;
    expect(await here.unlessWriting(changed())).toBe(true);
  });
});

it('weaves where a browser refuses its locks', async () => {
  const request = () => Promise.reject(new DOMException('No', 'SecurityError'));
  vi.stubGlobal('navigator', { locks: { request } });
  expect(await weave(here, 'gull.png', async () => 'whole')).toBe('whole');
});

/** A page that goes takes its locks with it. */
const goneWithItsLocks = () => vi.stubGlobal('navigator', { locks: lockManager() });

describe('a page that goes', () => {
  it('is asked about while something is woven, and then alone', async () => {
    expect(isAskedOnLeaving()).toBe(false);
    const [sheet, strip] = [task(), task()];
    const first = weave(here, 'gull.png', sheet.begin);
    const second = weave(here, 'strip.png', strip.begin);
    await Promise.all([sheet.hasBegun(), strip.hasBegun()]);
    expect(isAskedOnLeaving()).toBe(true);
    sheet.end();
    await first;
    expect(isAskedOnLeaving()).toBe(true);
    strip.fail();
    await expect(second).rejects.toThrow('no room');
    expect(isAskedOnLeaving()).toBe(false);
  });

  it('keeps its mark while other work comes and goes, so that a copy of the tab knows it', async () => {
    const sheet = task();
    void weave(here, 'gull.png', sheet.begin);
    await sheet.hasBegun();
    const marks = () => Object.entries<string>(sessionStorage);
    const before = marks();
    expect(before).not.toEqual([]);
    await here.run({ kind: 'prepared', jobId: 'a' }, () => Promise.resolve());
    expect(marks()).toEqual(before);
    sheet.end();
  });

  it('is remembered once, with the file that was under way', async () => {
    const sheet = task();
    void weave(here, 'gull.png', sheet.begin);
    await sheet.hasBegun();
    goneWithItsLocks();
    // The next page in this tab has the same session, and so has one in a copy of this tab.
    const session = Object.entries<string>(sessionStorage);
    expect(await openTab().brokenOff('a')).toBe('gull.png');
    expect(await openTab().brokenOff('a')).toBeUndefined();
    for (const [key, value] of session) sessionStorage.setItem(key, value);
    expect(await openTab().brokenOff('a')).toBeUndefined();
    sheet.end();
  });

  it('is told of in its own job alone', async () => {
    const sheet = task();
    void weave(here, 'gull.png', sheet.begin);
    await sheet.hasBegun();
    goneWithItsLocks();
    expect(await openTab().brokenOff('b')).toBeUndefined();
    sheet.end();
  });

  it('is told of in a demo print, which has another id each time it is opened', async () => {
    const sheet = task();
    const of = { kind: 'sheet', jobId: 'a', writes: 'gull.png', demo: 'glasshouse' } as const;
    void here.run(of, sheet.begin);
    await sheet.hasBegun();
    goneWithItsLocks();
    const session = Object.entries<string>(sessionStorage);
    expect(await openTab().brokenOff('b', 'kingfisher')).toBeUndefined();
    for (const [key, value] of session) sessionStorage.setItem(key, value);
    expect(await openTab().brokenOff('b', 'glasshouse')).toBe('gull.png');
    sheet.end();
  });

  it('is not told of in a copy of a tab that weaves on', async () => {
    const sheet = task();
    void weave(here, 'gull.png', sheet.begin);
    await sheet.hasBegun();
    expect(await openTab().brokenOff('a')).toBeUndefined();
    sheet.end();
  });

  it('leaves no word of what was woven whole or failed', async () => {
    await weave(here, 'gull.png', async () => undefined);
    expect(await openTab().brokenOff('a')).toBeUndefined();
    const failed = weave(here, 'gull.png', () => Promise.reject(new Error('no room')));
    await expect(failed).rejects.toThrow('no room');
    expect(await openTab().brokenOff('a')).toBeUndefined();
  });

  it('weaves without being remembered where nothing can be', async () => {
    vi.stubGlobal('sessionStorage', {
      setItem: () => {
        throw new DOMException('Full', 'QuotaExceededError');
      },
      getItem: () => {
        throw new DOMException('No', 'SecurityError');
      },
    });
    expect(await weave(here, 'gull.png', async () => 'whole')).toBe('whole');
    expect(await here.brokenOff('a')).toBeUndefined();
  });
});
