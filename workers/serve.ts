/** What a worker's script ends in: its service answers the page, and its end can be told. */
import { expose } from 'comlink';
import type { AnyWorker } from '../src/contract/worker.ts';

/** Held until the worker goes: the promise inside never settles. */
const holdLock: AnyWorker['holdLock'] = (name) =>
  new Promise((resolve) => {
    navigator.locks
      .request(name, () => {
        resolve(true);
        return new Promise(() => undefined);
      })
      .catch(() => resolve(false));
  });

export const serve = (service: Pick<AnyWorker, 'cancel'>): void => expose({ ...service, holdLock });
