/** Reads photos of the strip or of a failed print, and scans of a bare lens, one at a time in a worker. All throw StudioError. */
import { proxy } from 'comlink';
import type { Outcome } from '../contract/errors.ts';
import type {
  LensScanAnswer,
  LensScanRequest,
  MendPhotoAnswer,
  MendPhotoFileRequest,
  PhotoWorker,
  Report,
  StripPhotoAnswer,
  StripPhotoRequest,
} from '../contract/photo.ts';
import { inDecodeRoom } from './in-decode-room.ts';
import { WorkerPool, readsPictures } from './pool.ts';
import { spawnPictureWorker } from './workers.ts';

/** A reading computes without a pause, so its worker is ended soon after a stop. */
const pool = new WorkerPool<PhotoWorker>(spawnPictureWorker, {
  size: 1,
  stopGraceMs: 200,
  ...readsPictures,
});

export interface ReadCall {
  readonly signal: AbortSignal;
  readonly report: Report;
}

export const readPhoto = (
  request: Omit<StripPhotoRequest, 'id'>,
  { signal, report }: ReadCall,
): Promise<Outcome<StripPhotoAnswer>> =>
  inDecodeRoom([request], signal, () =>
    pool.run((worker, id) => worker.readStrip({ ...request, id }, proxy(report)), signal),
  );

export const readScan = (
  request: Omit<LensScanRequest, 'id'>,
  { signal, report }: ReadCall,
): Promise<Outcome<LensScanAnswer>> =>
  inDecodeRoom([request], signal, () =>
    pool.run((worker, id) => worker.readScan({ ...request, id }, proxy(report)), signal),
  );

export const readPrintPhoto = (
  request: Omit<MendPhotoFileRequest, 'id'>,
  { signal, report }: ReadCall,
): Promise<Outcome<MendPhotoAnswer>> =>
  inDecodeRoom([request], signal, () =>
    pool.run((worker, id) => worker.readMend({ ...request, id }, proxy(report)), signal),
  );
