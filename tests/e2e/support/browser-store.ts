/**
 * All that the studio keeps in a browser (databases, private disk, local storage), taken out of one and
 * laid into another. Knows nothing of the studio's formats: what is there is copied as it is.
 */
import type { BrowserContext, Page } from 'playwright/test';

interface StoreCopy {
  readonly name: string;
  readonly keyPath: string | string[] | null;
  readonly autoIncrement: boolean;
  readonly rows: readonly { readonly key: unknown; readonly value: unknown }[];
}

export interface BrowserStore {
  readonly databases: readonly {
    readonly name: string;
    readonly version: number;
    readonly stores: readonly StoreCopy[];
  }[];
  /** Files of the private disk: folders before the name, content as base64. */
  readonly files: readonly { readonly path: readonly string[]; readonly base64: string }[];
  readonly local: Readonly<Record<string, string>>;
}

interface Laid extends Omit<BrowserStore, 'files'> {
  readonly files: readonly { readonly path: readonly string[]; from: number; to: number }[];
  readonly content: string;
}

/** Runs in the page. @throws when a database holds what JSON cannot carry, such as a picture. */
const copyInPage = async (): Promise<BrowserStore> => {
  const done = <T>(request: IDBRequest<T>) =>
    new Promise<T>((resolve, reject) => {
      request.onsuccess = () => resolve(request.result);
      request.onerror = () => reject(new Error(request.error?.message));
    });
  const copyStore = async (store: IDBObjectStore): Promise<StoreCopy> => {
    if (store.indexNames.length > 0) throw new Error(`${store.name} has indexes: copy them too.`);
    const [keys, values] = await Promise.all([done(store.getAllKeys()), done(store.getAll())]);
    const plain = (value: unknown): boolean =>
      value === null ||
      (typeof value === 'object'
        ? (Array.isArray(value) || Object.getPrototypeOf(value) === Object.prototype) &&
          Object.values(value).every(plain)
        : typeof value !== 'bigint');
    if (!values.every(plain)) throw new Error(`${store.name} holds more than JSON can carry.`);
    return {
      name: store.name,
      keyPath: store.keyPath,
      autoIncrement: store.autoIncrement,
      rows: keys.map((key, at) => ({ key, value: values[at] as unknown })),
    };
  };
  const databases: BrowserStore['databases'][number][] = [];
  for (const { name = '', version = 1 } of await indexedDB.databases()) {
    const database = await done(indexedDB.open(name));
    const names = [...database.objectStoreNames];
    const transaction = names.length > 0 ? database.transaction(names) : undefined;
    const stores = await Promise.all(
      names.map((one) => copyStore((transaction as IDBTransaction).objectStore(one))),
    );
    databases.push({ name, version, stores });
    database.close();
  }
  const files: BrowserStore['files'][number][] = [];
  const walk = async (folder: FileSystemDirectoryHandle, above: readonly string[]) => {
    for await (const entry of folder.values()) {
      const path = [...above, entry.name];
      if (entry.kind === 'directory') {
        await walk(entry as FileSystemDirectoryHandle, path);
        continue;
      }
      const bytes = new Uint8Array(
        await (await (entry as FileSystemFileHandle).getFile()).arrayBuffer(),
      );
      let text = '';
      for (let at = 0; at < bytes.length; at += 32_768)
        text += String.fromCharCode(...bytes.subarray(at, at + 32_768));
      files.push({ path, base64: btoa(text) });
    }
  };
  await walk(await navigator.storage.getDirectory(), []);
  return { databases, files, local: Object.fromEntries(Object.entries(localStorage)) };
};

/** Runs in a page of an empty origin. `content` is the address of all files' bytes, one after the other. */
const layInPage = async ({ databases, files, local, content }: Laid): Promise<void> => {
  Object.assign(localStorage, local);
  const root = await navigator.storage.getDirectory();
  const bytes = await (await fetch(content)).blob();
  const writeFile = async ({ path, from, to }: Laid['files'][number]) => {
    let folder = root;
    for (const name of path.slice(0, -1))
      folder = await folder.getDirectoryHandle(name, { create: true });
    const file = await folder.getFileHandle(path.at(-1) ?? '', { create: true });
    const writable = await file.createWritable();
    await writable.write(bytes.slice(from, to));
    await writable.close();
  };
  const makeDatabase = ({ name, version, stores }: BrowserStore['databases'][number]) =>
    new Promise<void>((resolve, reject) => {
      const request = indexedDB.open(name, version);
      request.onupgradeneeded = () => {
        for (const { name: store, keyPath, autoIncrement, rows } of stores) {
          const made = request.result.createObjectStore(store, { keyPath, autoIncrement });
          for (const { key, value } of rows)
            made.put(value, keyPath === null ? (key as IDBValidKey) : undefined);
        }
      };
      request.onsuccess = () => {
        request.result.close();
        resolve();
      };
      request.onerror = () => reject(new Error(request.error?.message));
    });
  await Promise.all([...databases.map(makeDatabase), ...files.map(writeFile)]);
};

/** What the page's origin keeps. The studio must be at rest. */
export const copyStore = (page: Page): Promise<BrowserStore> => page.evaluate(copyInPage);

/**
 * Empties the origin of `address` in a context and lays the store in, as often as it is called.
 * @returns (of each call) the page that did it, at an address where nothing runs
 */
export const storeLayer = ({ databases, files, local }: BrowserStore, address: string) => {
  const parts = files.map(({ base64 }) => Buffer.from(base64, 'base64'));
  const body = Buffer.concat(parts);
  let at = 0;
  const places = files.map(({ path }, index) => {
    const from = at;
    at += parts[index]?.length ?? 0;
    return { path, from, to: at };
  });
  // A page of the origin that runs nothing, and what it reads: strings this long cross slowly.
  const { href: empty, origin } = new URL('empty', address);
  const { href: content } = new URL('empty/content', address);

  return async (context: BrowserContext): Promise<Page> => {
    const page = await context.newPage();
    await page.route(empty, (route) => route.fulfill({ contentType: 'text/html', body: '' }));
    await page.route(content, (route) => route.fulfill({ body }));
    await page.goto(empty);
    const devtools = await context.newCDPSession(page);
    await devtools.send('Storage.clearDataForOrigin', { origin, storageTypes: 'all' });
    await page.evaluate(layInPage, { databases, files: places, local, content });
    // A page with routes asks for everything anew.
    await page.unrouteAll();
    return page;
  };
};
