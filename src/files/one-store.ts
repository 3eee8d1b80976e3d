/** Databases of one object store in the browser. */
import type { IDBPDatabase } from 'idb';
import { openDB } from 'idb';

/** Rejects with what the browser said. */
export const openStore = (
  name: string,
  store: string,
  options?: IDBObjectStoreParameters,
): Promise<IDBPDatabase> =>
  openDB(name, 1, {
    upgrade: (fresh) => {
      fresh.createObjectStore(store, options);
    },
  });

/** Opens a database for one task and closes it. */
export const withDatabase = async <T>(
  open: () => Promise<IDBPDatabase>,
  task: (database: IDBPDatabase) => Promise<T>,
): Promise<T> => {
  const database = await open();
  try {
    return await task(database);
  } finally {
    database.close();
  }
};
