/**
 * A part of the service worker. What the system shares with the installed studio comes as a form that is posted to
 * `shared` (manifest: share_target); its files are put by, and the page that opens takes them (src/files/shared.ts).
 */
const CACHE = 'tiltloom-shared';

const putBy = async (request: Request): Promise<Response> => {
  const sent = await request.formData();
  const cache = await caches.open(CACHE);
  for (const file of sent.getAll('files'))
    if (file instanceof File && file.size > 0) {
      const key = `shared/${crypto.randomUUID()}?name=${encodeURIComponent(file.name)}`;
      await cache.put(key, new Response(file));
    }
  return Response.redirect('./', 303);
};

// TypeScript takes every worker for one of a page.
addEventListener('fetch', (event) => {
  const { request } = event as FetchEvent;
  if (request.method === 'POST' && new URL(request.url).pathname.endsWith('/shared'))
    (event as FetchEvent).respondWith(putBy(request));
});
