/**
 * The studio offline and its updates. After one visit the browser keeps a whole version: every bench, worker and
 * demo. A newer version is downloaded completely and waits until the person agrees; then all tabs reload
 * together, so that no page asks one version for parts of another.
 */
import type { Floor } from '../floor.ts';

/** The newer version's service worker takes control within this time. */
const UPDATE_WITHIN_MS = 10_000;

/** Only the built studio has a service worker. */
const canServeOffline = (): boolean => import.meta.env.PROD && 'serviceWorker' in navigator;

/** The script that names every other part of this page's version, by digests of their content. */
export const ownScript = (): string | undefined =>
  // Tests of the studio have no page.
  typeof document === 'undefined'
    ? undefined
    : document.querySelector<HTMLScriptElement>('script[type="module"][src]')?.src;

/** Waits until a service worker has taken control and has deleted the cache of the version before it. */
const untilInCharge = (worker: ServiceWorker): Promise<void> =>
  new Promise((resolve) => {
    const look = () => {
      if (worker.state === 'activated' || worker.state === 'redundant') resolve();
    };
    worker.addEventListener('statechange', look);
    look();
  });

/**
 * Whether this page and its service worker have one version. They differ if the server was updated between the two
 * downloads.
 */
const isOwnWorker = async (): Promise<boolean> => {
  const worker = navigator.serviceWorker.controller;
  const own = ownScript();
  if (worker === null || own === undefined) return true;
  await untilInCharge(worker);
  return (await caches.match(own, { ignoreSearch: true })) !== undefined;
};

/** Leaves the field first, so that text typed but not yet committed reaches the job. */
const reload = (): void => {
  const { activeElement } = document;
  if (activeElement instanceof HTMLElement) activeElement.blur();
  location.reload();
};

export const createUpdates = ({ work, tasks }: Floor) => {
  let registration: ServiceWorkerRegistration | undefined;

  const tell = (newVersion: 'waits' | 'busy') => work.setState({ newVersion });

  /** Offers the update before the page asks for a part of its version that the cache no longer holds. */
  const tellIfNotOwn = async (): Promise<void> => {
    if (!(await isOwnWorker())) tell('waits');
  };

  const watch = async (registered: ServiceWorkerRegistration): Promise<void> => {
    registration = registered;
    const look = () => {
      // On a first visit there is no older version to update.
      if (registered.waiting !== null && registered.active !== null) tell('waits');
    };
    look();
    registered.addEventListener('updatefound', () => {
      registered.installing?.addEventListener('statechange', look);
    });
    await tellIfNotOwn();
  };

  return {
    /** Call this first: a change of service worker while the job opens must not be missed. */
    goOverTogether: (): void => {
      if (!canServeOffline()) return;
      let hadWorker = navigator.serviceWorker.controller !== null;
      navigator.serviceWorker.addEventListener('controllerchange', () => {
        const isFirst = !hadWorker;
        hadWorker = true;
        if (isFirst) void tellIfNotOwn();
        // Only another tab can cause this: the studio's own update waits for every weave.
        else if (tasks.isWriting()) tell('busy');
        else reload();
      });
    },

    /** A browser that refuses to register a service worker only lacks offline use. */
    keepForOffline: (): void => {
      if (!canServeOffline()) return;
      navigator.serviceWorker
        .register('./sw.js')
        .then(watch)
        .catch(() => undefined);
    },

    /** Updates to the waiting version, unless a tab is weaving: then it says so instead. */
    updateNow: async (): Promise<void> => {
      const done = await tasks.unlessWriting(async () => {
        // With no waiting worker, the newer version is in control already.
        if (registration?.waiting) registration.waiting.postMessage({ type: 'SKIP_WAITING' });
        else reload();
        // Holds the lock so that no tab begins to weave before the pages reload, which ends this wait.
        await new Promise((resolve) => setTimeout(resolve, UPDATE_WITHIN_MS));
      });
      if (!done) tell('busy');
    },
  };
};
