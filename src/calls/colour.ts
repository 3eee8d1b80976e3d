/** Reads colour profiles and makes tables of them, one at a time in a worker. All throw StudioError. */
import type {
  ColourWorker,
  FoundProfile,
  LookRequest,
  MissedRequest,
  PrintTable,
  ProfileFile,
  TableBlob,
  TableRequest,
} from '../contract/colour.ts';
import type { Outcome } from '../contract/errors.ts';
import type { Missed } from '../core/colour/icc/look.ts';
import { WorkerPool } from './pool.ts';
import { spawnPictureWorker } from './workers.ts';

/** A table is filled without a pause, so its worker is ended soon after a stop. */
const pool = new WorkerPool<ColourWorker>(spawnPictureWorker, { size: 1, stopGraceMs: 200 });

export const readProfile = (
  file: ProfileFile,
  signal?: AbortSignal,
): Promise<Outcome<FoundProfile>> =>
  pool.run((worker, id) => worker.readProfile({ ...file, id }), signal);

export const printTable = (
  request: Omit<TableRequest, 'id'>,
  signal?: AbortSignal,
): Promise<Outcome<PrintTable>> =>
  pool.run((worker, id) => worker.printTable({ ...request, id }), signal);

export const lookTable = (
  request: Omit<LookRequest, 'id'>,
  signal?: AbortSignal,
): Promise<Outcome<TableBlob>> =>
  pool.run((worker, id) => worker.lookTable({ ...request, id }), signal);

export const missedColours = (
  request: Omit<MissedRequest, 'id'>,
  signal?: AbortSignal,
): Promise<Outcome<Missed>> =>
  pool.run((worker, id) => worker.missedColours({ ...request, id }), signal);
