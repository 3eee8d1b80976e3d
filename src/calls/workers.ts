/** The one place that names the workers. It uses their URLs, so that the page's bundle contains none of them. */

/** For everything that decodes pictures: frames, parallax, photos and made views, each in a pool of its own. */
export const spawnPictureWorker = (): Worker =>
  new Worker(new URL('../../workers/picture.worker.ts', import.meta.url), { type: 'module' });

export const spawnWeaveWorker = (): Worker =>
  new Worker(new URL('../../workers/weave.worker.ts', import.meta.url), { type: 'module' });

export const spawnStripWorker = (): Worker =>
  new Worker(new URL('../../workers/strip.worker.ts', import.meta.url), { type: 'module' });

export const spawnProofWorker = (): Worker =>
  new Worker(new URL('../../workers/proof.worker.ts', import.meta.url), { type: 'module' });

export const spawnStageWorker = (): Worker =>
  new Worker(new URL('../../workers/stage.worker.ts', import.meta.url), { type: 'module' });
