/** Takes clips apart, one at a time in a worker. All throw StudioError. */
import { proxy } from 'comlink';
import type { ClipFacts, ClipRequest, ClipWorker, TakeRequest } from '../contract/clip.ts';
import type { Outcome } from '../contract/errors.ts';
import type { ReadCall } from './photo.ts';
import { WorkerPool, readsPictures } from './pool.ts';
import { spawnPictureWorker } from './workers.ts';

const pool = new WorkerPool<ClipWorker>(spawnPictureWorker, { size: 1, ...readsPictures });

export const lookAtClip = (
  request: Omit<ClipRequest, 'id'>,
  { signal, report }: ReadCall,
): Promise<Outcome<ClipFacts>> =>
  pool.run((worker, id) => worker.lookAtClip({ ...request, id }, proxy(report)), signal);

export const takeFromClip = (
  request: Omit<TakeRequest, 'id'>,
  { signal, report }: ReadCall,
): Promise<Outcome<readonly Blob[]>> =>
  pool.run((worker, id) => worker.takeFromClip({ ...request, id }, proxy(report)), signal);
