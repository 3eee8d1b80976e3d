/** Lays pictures on each other and matches their light, one at a time in a worker. All throw StudioError. */
import type { AlignWorker, LayOnRequest, LightRequest } from '../contract/align.ts';
import type { Outcome } from '../contract/errors.ts';
import type { LightMatch } from '../core/frames/align/match-light.ts';
import type { PictureMatch } from '../core/frames/align/match-pictures.ts';
import { inDecodeRoom } from './in-decode-room.ts';
import { WorkerPool, readsPictures } from './pool.ts';
import { spawnPictureWorker } from './workers.ts';

const pool = new WorkerPool<AlignWorker>(spawnPictureWorker, { size: 1, ...readsPictures });

export const layOn = (
  request: Omit<LayOnRequest, 'id'>,
  signal: AbortSignal,
): Promise<Outcome<PictureMatch>> =>
  inDecodeRoom([request.from, request.to], signal, () =>
    pool.run((worker, id) => worker.layOn({ ...request, id }), signal),
  );

export const matchLight = (
  request: Omit<LightRequest, 'id'>,
  signal: AbortSignal,
): Promise<Outcome<LightMatch>> =>
  inDecodeRoom([request.from, request.to], signal, () =>
    pool.run((worker, id) => worker.matchLight({ ...request, id }), signal),
  );
