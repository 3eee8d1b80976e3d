/**
 * The studio without a network: the browser keeps a whole version of it, every bench, worker and demo, after
 * one visit. A newer version is fetched whole beside it and waits until the person says so; then all tabs go
 * over together, so that no page asks one version for another one's parts.
 */
import type { Floor } from '../floor.ts';

/** The keeper of the newer version takes this long at the most to take charge, a moment as a rule. */
const CHANGE_WITHIN_MS = 10_000;

/** In the built studio alone. */
const canKeep = (): boolean => import.meta.env.PROD && 'serviceWorker' in navigator;

/** The script that names every other part of this page's version, by digests of what is in them. */
const ownScript = (): string | undefined =>
  document.querySelector<HTMLScriptElement>('script[type="module"][src]')?.src;

/** Once a keeper has taken charge, and has let go of what was its forerunner's. */
const untilInCharge = (keeper: ServiceWorker): Promise<void> =>
  new Promise((resolve) => {
    const look = () => {
      if (keeper.state === 'activated' || keeper.state === 'redundant') resolve();
    };
    keeper.addEventListener('statechange', look);
    look();
  });

/** A page may come from the server and its keeper from a newer version, put there a moment later. */
const isKeepersOwn = async (): Promise<boolean> => {
  const keeper = navigator.serviceWorker.controller;
  const own = ownScript();
  if (keeper === null || own === undefined) return true;
  await untilInCharge(keeper);
  return (await caches.match(own, { ignoreSearch: true })) !== undefined;
};

/** Text that stands in a field and is not taken by the job yet is taken first. */
const reload = (): void => {
  const { activeElement } = document;
  if (activeElement instanceof HTMLElement) activeElement.blur();
  location.reload();
};

export const createUpdates = ({ work, tasks }: Floor) => {
  let registration: ServiceWorkerRegistration | undefined;

  const tell = (newVersion: 'waits' | 'busy') => work.setState({ newVersion });

  /** Nothing is mixed yet: the person is told before a part is asked for that is no longer there. */
  const tellIfNotOwn = async (): Promise<void> => {
    if (!(await isKeepersOwn())) tell('waits');
  };

  const watch = async (registered: ServiceWorkerRegistration): Promise<void> => {
    registration = registered;
    const look = () => {
      // On a first visit nothing is there to be changed.
      if (registered.waiting !== null && registered.active !== null) tell('waits');
    };
    look();
    registered.addEventListener('updatefound', () => {
      registered.installing?.addEventListener('statechange', look);
    });
    await tellIfNotOwn();
  };

  return {
    /** As the first thing of all: what happens to the page while the job is being opened must not be missed. */
    goOverTogether: (): void => {
      if (!canKeep()) return;
      let hadKeeper = navigator.serviceWorker.controller !== null;
      navigator.serviceWorker.addEventListener('controllerchange', () => {
        const isFirst = !hadKeeper;
        hadKeeper = true;
        if (isFirst) void tellIfNotOwn();
        // Never by the studio's own doing: the change waits for every weave.
        else if (tasks.isWriting()) tell('busy');
        else reload();
      });
    },

    /** A browser that refuses, or gives no registration, only goes without. */
    keepForOffline: (): void => {
      if (!canKeep()) return;
      navigator.serviceWorker
        .register('./sw.js')
        .then(watch)
        .catch(() => undefined);
    },

    /** Goes over to the waiting version, unless a tab is weaving: that is told instead. */
    changeOver: async (): Promise<void> => {
      const done = await tasks.unlessWriting(async () => {
        // Without one that waits, the newer version is in charge already.
        if (registration?.waiting) registration.waiting.postMessage({ type: 'SKIP_WAITING' });
        else reload();
        // Nobody may begin to weave before the pages have gone, which ends this wait.
        await new Promise((resolve) => setTimeout(resolve, CHANGE_WITHIN_MS));
      });
      if (!done) tell('busy');
    },
  };
};

export type Updates = ReturnType<typeof createUpdates>;
