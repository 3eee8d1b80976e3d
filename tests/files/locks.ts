/**
 * Locks as the W3C's Web Locks API has them, which Node does not: shared and exclusive, in the order they
 * were asked for. `ifAvailable` calls back with null, `steal` breaks the holders with an AbortError, a
 * signal withdraws a request that still waits. `query` tells what is held, and what waits.
 */
import { expect, vi } from 'vitest';

type Callback = (lock: { name: string } | null) => unknown;

interface Asked {
  readonly shared: boolean;
  /** Granted. */
  go(): void;
}

interface Holder {
  readonly shared: boolean;
  broken(error: Error): void;
}

export const lockManager = () => {
  const held = new Map<string, Holder[]>();
  const waiting = new Map<string, Asked[]>();
  const of = <T>(map: Map<string, T[]>, name: string): T[] => {
    const list = map.get(name) ?? [];
    map.set(name, list);
    return list;
  };
  const aborted = () => new DOMException('The lock was taken', 'AbortError');
  const isFree = (name: string, shared: boolean) =>
    of(held, name).every((holder) => shared && holder.shared);

  const next = (name: string): void => {
    const [first] = of(waiting, name);
    if (first === undefined || !isFree(name, first.shared)) return;
    of(waiting, name).shift();
    first.go();
    next(name);
  };

  const grant = (name: string, shared: boolean, callback: Callback): Promise<unknown> => {
    const broken = new Promise<never>((_resolve, reject) => {
      of(held, name).push({ shared, broken: reject });
    });
    const own = of(held, name).at(-1);
    return Promise.race([Promise.resolve().then(() => callback({ name })), broken]).finally(() => {
      held.set(
        name,
        of(held, name).filter((one) => one !== own),
      );
      next(name);
    });
  };

  const request = (
    name: string,
    ...[first, second]: [Callback] | [LockOptions, Callback]
  ): Promise<unknown> => {
    const options = typeof first === 'function' ? {} : first;
    const callback = typeof first === 'function' ? first : (second as Callback);
    const shared = options.mode === 'shared';
    if (options.steal === true)
      for (const holder of of(held, name).splice(0)) holder.broken(aborted());
    if (isFree(name, shared) && of(waiting, name).length === 0)
      return grant(name, shared, callback);
    if (options.ifAvailable === true) return Promise.resolve().then(() => callback(null));
    return new Promise((resolve, reject) => {
      const asked = { shared, go: () => resolve(grant(name, shared, callback)) };
      of(waiting, name).push(asked);
      options.signal?.addEventListener('abort', () => {
        const at = of(waiting, name).indexOf(asked);
        if (at < 0) return;
        of(waiting, name).splice(at, 1);
        reject(aborted());
        next(name);
      });
    });
  };
  const names = (of: Map<string, readonly unknown[]>) =>
    [...of].flatMap(([name, all]) => all.map(() => ({ name })));
  const query = async () => ({ held: names(held), pending: names(waiting) });
  return { request, query };
};

/** Once somebody waits for a lock of this name, as the stubbed `navigator.locks` tell. */
export const isAwaited = (name: string): Promise<void> =>
  vi.waitFor(async () => expect((await navigator.locks.query()).pending).toContainEqual({ name }));
