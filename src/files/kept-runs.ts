/**
 * Weaves that lie on the private disk: what was asked for, and its files, whole or begun. They outlast the page, so that
 * a weave that a stop, a reload or a crash broke off goes on, and a finished file is found again with its job.
 */
import * as v from 'valibot';
import { diskFolders } from '../contract/disk.ts';
import { StudioError } from '../contract/errors.ts';
import type { SheetFileType } from '../core/encode/file-types.ts';
import { sheetFileTypes } from '../core/encode/file-types.ts';
import { hasLocks } from './job-hold.ts';
import type { KeptFile, KeptPlace } from './kept-file.ts';
import { openInBatches } from './kept-file.ts';
import { newId } from './new-id.ts';
import { DiskSilent } from './private-disk.ts';
import type { Shelf } from './shelves.ts';
import { openDiskShelf, openMemoryShelf } from './shelves.ts';
import { diskFault } from './sinks.ts';

const number = v.pipe(v.number(), v.minValue(0));
const recordSchema = v.object({
  /** Whose it is: a job's id, or the name of a demo print. */
  owner: v.string(),
  kind: v.string(),
  /** ISO 8601. The files bear this time, however often their weave went on. */
  startedAt: v.pipe(v.string(), v.isoTimestamp()),
  /** Of the lengths on the page. */
  units: v.picklist(['mm', 'in']),
  named: v.string(),
  fileType: v.picklist(Object.keys(sheetFileTypes) as SheetFileType[]),
  /** A digest of each thing that the dots depend on, by its name in a sentence. */
  dependsOn: v.record(v.string(), v.string()),
  files: v.array(v.object({ name: v.string(), fileName: v.string(), rows: number })),
  /** Files that went to a place that the person chose. */
  given: v.array(v.object({ index: number, byteLength: number })),
  /** Spent on it so far. */
  seconds: number,
});
export type RunRecord = v.InferOutput<typeof recordSchema>;

export interface KeptRun {
  /** Whether it outlasts the page. */
  readonly lasting: boolean;
  record(): RunRecord;
  update(change: Partial<Pick<RunRecord, 'given' | 'seconds'>>): Promise<void>;
  /** One of its files, by its place in the record, to go on writing or to read. */
  open(index: number): Promise<KeptFile>;
  /** Removes what there is of one file. */
  drop(index: number): Promise<void>;
  /** Removes all of it. */
  discard(): Promise<void>;
}

const openShelf = async (): Promise<Shelf> => {
  try {
    return await openDiskShelf(diskFolders.sheets);
  } catch (error) {
    if (error instanceof DiskSilent) throw error;
    return openMemoryShelf();
  }
};

const RECORD = '.run';
const lockOf = (id: string) => `tiltloom-run-${id}`;
/** A page that was reloaded may let go of its locks a moment after the next has begun. */
const GONE_MS = 3000;

/** Resolves with whether no other page has the run; this page has it from then on, until it lets go. */
const takeLock = (id: string): Promise<(() => void) | undefined> =>
  new Promise((resolve) => {
    if (!hasLocks()) return resolve(() => undefined);
    navigator.locks
      .request(lockOf(id), { signal: AbortSignal.timeout(GONE_MS) }, () => {
        return new Promise<void>((letGo) => resolve(letGo));
      })
      .catch(() => resolve(undefined));
  });

/** The keys of one file, or of the whole run, under a prefix of their own. */
const placeIn = (shelf: Shelf, prefix: string, fileName: string): KeptPlace => ({
  put: async (key, content) => {
    try {
      await shelf.put(prefix + key, content);
    } catch (error) {
      throw error instanceof StudioError ? error : diskFault(error, fileName);
    }
  },
  get: (key) => shelf.get(prefix + key),
});

const removeUnder = async (shelf: Shelf, prefix: string): Promise<void> => {
  for (const key of await shelf.keys())
    if (key.startsWith(prefix)) await shelf.delete(key).catch(() => undefined); // Gone already.
};

const readRecord = async (shelf: Shelf, id: string): Promise<RunRecord | undefined> => {
  try {
    return v.parse(recordSchema, JSON.parse((await (await shelf.get(id + RECORD))?.text()) ?? ''));
  } catch {
    return undefined;
  }
};

/** @param open for tests */
export const createKeptRuns = (open: () => Promise<Shelf> = openShelf) => {
  let opened: Promise<Shelf> | undefined;
  const shelfNow = () =>
    (opened ??= open().catch((error: unknown) => {
      opened = undefined; // A silent disk is asked again.
      throw error;
    }));
  /** The runs that this page has, by id. */
  const held = new Map<string, KeptRun>();

  const runOf = (shelf: Shelf, id: string, first: RunRecord, letGo: () => void): KeptRun => {
    let record = first;
    const run: KeptRun = {
      lasting: shelf.place !== 'memory',
      record: () => record,
      update: async (change) => {
        record = { ...record, ...change };
        const place = placeIn(shelf, id, record.named);
        await place.put(RECORD, new Blob([JSON.stringify(record)]));
      },
      open: (index) => {
        const { fileName } = record.files[index] as RunRecord['files'][number];
        const { mimeType } = sheetFileTypes[record.fileType];
        return openInBatches(placeIn(shelf, `${id}.${index}.`, fileName), mimeType);
      },
      drop: (index) => removeUnder(shelf, `${id}.${index}.`),
      discard: async () => {
        held.delete(id);
        await shelf.delete(id + RECORD).catch(() => undefined);
        await removeUnder(shelf, `${id}.`);
        letGo();
      },
    };
    held.set(id, run);
    return run;
  };

  return {
    /** @param place `memory`: nothing of it outlasts the page. A disk that does not answer is memory too. */
    begin: async (record: RunRecord, place: 'disk' | 'memory'): Promise<KeptRun> => {
      const shelf = await (place === 'memory'
        ? openMemoryShelf()
        : shelfNow().catch(openMemoryShelf));
      const id = newId();
      const run = runOf(shelf, id, record, (await takeLock(id)) ?? (() => undefined));
      await run.update({});
      return run;
    },

    /** What earlier pages left of an owner's, newest first: no other page has it. */
    left: async (owner: string): Promise<KeptRun[]> => {
      const shelf = await shelfNow();
      const found: KeptRun[] = [];
      for (const key of await shelf.keys()) {
        const id = key.endsWith(RECORD) ? key.slice(0, -RECORD.length) : undefined;
        if (id === undefined || held.has(id)) continue;
        const record = await readRecord(shelf, id);
        if (record?.owner !== owner) continue;
        const letGo = await takeLock(id);
        if (letGo !== undefined) found.push(runOf(shelf, id, record, letGo));
      }
      return found.sort((a, b) => b.record().startedAt.localeCompare(a.record().startedAt));
    },

    /**
     * Removes what belongs to no owner that is kept, and what has no record. Only while no other page is open.
     * Never rejects.
     */
    sweep: async (isKept: (owner: string) => boolean): Promise<void> => {
      try {
        const shelf = await shelfNow();
        const keys = await shelf.keys();
        const kept = new Set(held.keys());
        for (const key of keys.filter((one) => one.endsWith(RECORD))) {
          const id = key.slice(0, -RECORD.length);
          const owner = (await readRecord(shelf, id))?.owner;
          if (owner !== undefined && isKept(owner)) kept.add(id);
        }
        for (const key of keys)
          if (!kept.has(key.slice(0, key.indexOf('.')))) await shelf.delete(key);
      } catch {
        // It is tried again at the next start.
      }
    },
  };
};

export type KeptRuns = ReturnType<typeof createKeptRuns>;
