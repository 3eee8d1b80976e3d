/**
 * The studio without a network: the browser keeps a whole version of it, every bench, worker and demo, after
 * one visit. A newer version is fetched whole beside it and waits until the person says so.
 */
import { workStore } from '../../state/work.ts';
import { unlessWeaving } from './weaving.ts';

let waiting: ServiceWorker | undefined;

const watch = (registration: ServiceWorkerRegistration) => {
  const tell = () => {
    // Without one in charge this is the first visit: nothing is there to be changed.
    if (registration.waiting === null || navigator.serviceWorker.controller === null) return;
    waiting = registration.waiting;
    workStore.getState().set({ newVersion: 'waits' });
  };
  tell();
  registration.addEventListener('updatefound', () => {
    registration.installing?.addEventListener('statechange', tell);
  });
};

/** In the built studio alone. A browser that refuses, or gives no registration, only goes without. */
export const keepForOffline = (): void => {
  if (!import.meta.env.PROD || !('serviceWorker' in navigator)) return;
  const hadOne = navigator.serviceWorker.controller !== null;
  // All tabs go over together, so that no page asks the new version for the old one's parts.
  navigator.serviceWorker.addEventListener('controllerchange', () => {
    if (hadOne) location.reload();
  });
  navigator.serviceWorker
    .register('./sw.js')
    .then(watch)
    .catch(() => undefined);
};

/** Goes over to the waiting version, unless a tab is weaving: that is told instead. */
export const changeOver = async (): Promise<void> => {
  const done = await unlessWeaving(() => waiting?.postMessage({ type: 'SKIP_WAITING' }));
  if (!done) workStore.getState().set({ newVersion: 'busy' });
};
