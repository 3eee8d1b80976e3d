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

/** @param take called with the address and the content of each; false: another tab has taken it meanwhile */
const filesIn = async (
  folder: string | undefined,
  take: (cache: Cache, url: string, kept: Response) => Promise<boolean>,
): Promise<File[]> => {
  const cache = await cacheIfAny();
  if (cache === undefined) return [];
  const files: File[] = [];
  for (const { url } of await keysIn(cache, folder)) {
    const kept = await cache.match(url);
    if (kept === undefined || !(await take(cache, url, kept.clone()))) continue;
    const bytes = await kept.blob();
    const name = new URL(url).searchParams.get('name') ?? 'shared';
    files.push(new File([bytes], name, { type: bytes.type }));
  }
  return files;
};

/** What was shared since it was last asked for; each is handed to one page alone. */
export const sharedFiles = (): Promise<File[]> =>
  filesIn(SHARED, async (cache, url, kept) => {
    await cache.put(url.replace(`/${SHARED}/`, `/${TAKEN}/`), kept);
    return cache.delete(url);
  });

/** What an earlier page took and never said that it kept. */
export const takenFiles = (): Promise<File[]> => filesIn(TAKEN, () => Promise.resolve(true));

/** The page has a copy of whatever it took. */
export const forgetTaken = async (): Promise<void> => {
  const cache = await cacheIfAny();
  if (cache === undefined) return;
  for (const request of await keysIn(cache, TAKEN)) await cache.delete(request);
};
