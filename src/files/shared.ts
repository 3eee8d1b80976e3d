/**
 * Files that the service worker (workers/share-in.ts) has put by until a page asks for them. Nobody else may have them
 * any more, so that each is kept, as taken, until the page says that it has a copy of its own.
 */

/** Known to both: the cache, and in the address of each file its folder and its name. */
const CACHE = 'tiltloom-shared';
const [SHARED, TAKEN] = ['shared', 'taken'];

const cacheIfAny = async (): Promise<Cache | undefined> =>
  'caches' in globalThis && (await caches.has(CACHE)) ? caches.open(CACHE) : undefined;

const keysIn = async (cache: Cache, folder = ''): Promise<readonly Request[]> =>
  (await cache.keys()).filter(({ url }) => new URL(url).pathname.includes(`/${folder}/`));

const fileOf = async ({ url }: Request, kept: Response): Promise<File> => {
  const bytes = await kept.blob();
  return new File([bytes], new URL(url).searchParams.get('name') ?? 'shared', { type: bytes.type });
};

/** What was shared since it was last asked for; each is handed to one page alone. */
export const sharedFiles = async (): Promise<File[]> => {
  const cache = await cacheIfAny();
  if (cache === undefined) return [];
  const files: File[] = [];
  for (const request of await keysIn(cache, SHARED)) {
    const kept = await cache.match(request);
    if (kept === undefined) continue;
    await cache.put(request.url.replace(`/${SHARED}/`, `/${TAKEN}/`), kept.clone());
    // Another tab may have taken it meanwhile.
    if (await cache.delete(request)) files.push(await fileOf(request, kept));
  }
  return files;
};

/** What an earlier page took and never said that it kept. */
export const takenFiles = async (): Promise<File[]> => {
  const cache = await cacheIfAny();
  if (cache === undefined) return [];
  const files: File[] = [];
  for (const request of await keysIn(cache, TAKEN)) {
    const kept = await cache.match(request);
    if (kept !== undefined) files.push(await fileOf(request, kept));
  }
  return files;
};

/** The page has a copy of whatever it took. */
export const forgetTaken = async (): Promise<void> => {
  const cache = await cacheIfAny();
  if (cache === undefined) return;
  for (const request of await keysIn(cache, TAKEN)) await cache.delete(request);
};
