/** The one place that names the workers. Each is addressed by URL, so the page's bundle holds none of them. */

export const spawnFrameWorker = (): Worker =>
  new Worker(new URL('../../workers/frame.worker.ts', import.meta.url), { type: 'module' });

export const spawnWeaveWorker = (): Worker =>
  new Worker(new URL('../../workers/weave.worker.ts', import.meta.url), { type: 'module' });

export const spawnStripWorker = (): Worker =>
  new Worker(new URL('../../workers/strip.worker.ts', import.meta.url), { type: 'module' });

export const spawnParallaxWorker = (): Worker =>
  new Worker(new URL('../../workers/parallax.worker.ts', import.meta.url), { type: 'module' });

export const spawnPhotoWorker = (): Worker =>
  new Worker(new URL('../../workers/photo.worker.ts', import.meta.url), { type: 'module' });

export const spawnSynthWorker = (): Worker =>
  new Worker(new URL('../../workers/synth.worker.ts', import.meta.url), { type: 'module' });
