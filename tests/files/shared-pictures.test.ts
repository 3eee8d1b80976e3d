/** Pictures that several tabs have: none is swept while a job of another names it, or is about to. */
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { createFrameStore } from '../../src/files/frame-store.ts';
import { createPresence } from '../../src/files/picture-locks.ts';
import { openMemoryShelf } from '../../src/files/shelves.ts';
import { isAwaited, lockManager } from './locks.ts';

const picture = new Blob(['picture']);
const small = new Blob(['small']);

beforeEach(() => {
  vi.stubGlobal('navigator', { locks: lockManager() });
});
afterEach(() => {
  vi.unstubAllGlobals();
});

describe('sweeping while another tab', () => {
  /** The pages share the disk and the locks. */
  const disk = () => {
    const shelf = openMemoryShelf();
    return {
      shelf,
      page: () => createFrameStore(() => Promise.resolve(shelf), createPresence()),
    };
  };

  test('opens and adds a frame leaves that frame', async () => {
    const { shelf, page } = disk();
    await shelf.put('leftover', picture);
    let goOn: (() => void) | undefined;
    const sweeping = page().sweep(async () => {
      await new Promise<void>((resolve) => (goOn = resolve));
      return [];
    });
    await vi.waitFor(() => expect(goOn).toBeDefined());
    const other = page();
    const swept = other.sweep(async () => []);
    const added = other.keep('new', 'new.png', picture, small);
    // Seen at once, though it is not on the disk yet.
    expect(await (await other.open('new')).text()).toBe('picture');
    // It is held back from being written.
    await isAwaited('tiltloom-frames');
    goOn?.();
    await Promise.all([sweeping, swept, added]);
    expect((await shelf.keys()).sort()).toEqual(['new', 'new.thumbnail']);
  });

  test('is open leaves everything', async () => {
    const { shelf, page } = disk();
    await page().keep('theirs', 'theirs.png', picture, small);
    await page().sweep(async () => []);
    expect(await shelf.keys()).toContain('theirs');
  });

  test('had been open knows what that one kept', async () => {
    const { shelf, page } = disk();
    const kept = new Set<string>();
    // Another page keeps a frame and a job that names it just before the sweep may begin.
    const sweeping = page().sweep(async () => kept);
    await shelf.put('theirs', picture);
    kept.add('theirs');
    await sweeping;
    expect(await shelf.keys()).toEqual(['theirs']);
  });

  test('cannot be told of, for want of locks, is not done', async () => {
    vi.stubGlobal('navigator', {});
    const { shelf, page } = disk();
    await page().keep('theirs', 'theirs.png', picture, small);
    await page().sweep(async () => []);
    expect(await shelf.keys()).toContain('theirs');
  });
});
