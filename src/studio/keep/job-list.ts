/** What a person does with the list of jobs. Each rejects with a sentence when it cannot be done. */
import { frameStore } from '../../files/frame-store.ts';
import { freePrepared, freeSheets } from '../../files/freeable.ts';
import type { KeptJobEntry } from '../../files/job-store.ts';
import { copyJob, deleteJob, jobStore, listJobs } from '../../files/job-store.ts';
import { whileRemoving } from '../../files/picture-locks.ts';
import { forgetParallax } from '../../files/parallax-store.ts';
import { pixelIdsOf } from '../../job/facts/pixels.ts';
import { documentStore } from '../../state/document.ts';
import { workStore } from '../../state/work.ts';
import {
  beginJob,
  flush,
  hold,
  keepAllAgain,
  nothingUnderWay,
  openKeptJob,
  writtenKinds,
} from './job-keeper.ts';
import { heldOnDisk } from '../prepare/prepare-job.ts';
import { demoShelf } from '../frames/demo-shelf.ts';

const changed = (): void => {
  const { jobsChanged, set } = workStore.getState();
  set({ jobsChanged: jobsChanged + 1 });
  hold.tellKept();
};

const isOpen = (id: string): boolean => documentStore.getState().jobId === id;

const openElsewhere = ({ name }: KeptJobEntry): Error =>
  new Error(`“${name}” is open in another tab. Close it there, or open another job there.`);

const notElsewhere = async (entry: KeptJobEntry): Promise<void> => {
  if (!(await hold.isFree(entry.id))) throw openElsewhere(entry);
};

/** Notes and pictures of the job that was open say nothing of another. */
const clearNotes = (): void => workStore.getState().set({ arrivalNotes: [] });

export const openListed = async ({ id, name }: KeptJobEntry): Promise<void> => {
  if (isOpen(id)) return;
  const loaded = await openKeptJob(id);
  changed();
  if (loaded.kind === 'job') return clearNotes();
  throw new Error(
    loaded.kind === 'none'
      ? `“${name}” is no longer there: it was deleted in another tab.`
      : `“${name}” could not be read: ${loaded.setAside[0]?.reason ?? ''} Nothing was deleted: it lies in this browser’s storage as “${loaded.setAside[0]?.keptAs ?? ''}”.`,
  );
};

export const beginNew = async (): Promise<void> => {
  await beginJob();
  clearNotes();
  changed();
};

export const beginDemo = async (name: string): Promise<void> => {
  nothingUnderWay();
  const { openDemo } = await demoShelf();
  clearNotes();
  // Seen on the page itself while it comes.
  void beginJob(() => openDemo(name)).then(changed);
};

export const copyListed = async ({ id, name }: KeptJobEntry): Promise<string> => {
  if (isOpen(id)) await flush();
  if ((await copyJob(id)) === undefined) throw new Error(`“${name}” could not be read.`);
  changed();
  return `A copy of “${name}” is there.`;
};

export const renameListed = async (entry: KeptJobEntry, wanted: string): Promise<void> => {
  const name = wanted === '' ? 'Untitled print' : wanted;
  if (isOpen(entry.id)) {
    const { change, lookOnly } = documentStore.getState();
    if (lookOnly !== undefined) throw new Error(lookOnly);
    change('job name', (job) => ({ ...job, name }));
    await flush();
  } else {
    await notElsewhere(entry);
    const loaded = await jobStore.openJob(entry.id);
    if (loaded.kind !== 'job') throw new Error(`“${entry.name}” could not be read.`);
    await jobStore.saveJob(entry.id, { ...loaded.job, name }, { label: 'job name' });
  }
  changed();
};

/** Into the bin. Where it was the open job, the newest of the others is opened, or a new one. */
export const deleteListed = async (entry: KeptJobEntry): Promise<void> => {
  await notElsewhere(entry);
  if (isOpen(entry.id)) {
    nothingUnderWay();
    const [next] = (await listJobs()).filter(({ id }) => id !== entry.id);
    if (next === undefined || (await openKeptJob(next.id)).kind !== 'job') await beginJob();
    clearNotes();
  }
  await deleteJob(entry.id);
  changed();
};

export const bringBack = async ({ id }: KeptJobEntry): Promise<void> => {
  await jobStore.bringBack(id);
  changed();
};

/** What found no room before may find it now. */
const afterFreeing = async (): Promise<void> => {
  await keepAllAgain();
  changed();
};

/** The way back in this page is longer than what is kept of it. */
const pixelIdsHere = (): string[] => {
  const { job, past, future } = documentStore.getState();
  return [job, ...[...past, ...future].map(({ before }) => before)].flatMap(pixelIdsOf);
};

/** For good, with every picture that no other kept job names. */
export const endListed = async (entry: KeptJobEntry): Promise<void> => {
  const { id, name, deletedAt } = entry;
  const ended = await hold.whileFree(id, () =>
    whileRemoving(async () => {
      const named = await jobStore.pixelIdsOfJob(id);
      if (!(await jobStore.endJob(id, deletedAt !== undefined)))
        throw new Error(`“${name}” was brought back in another tab, so it was left as it is.`);
      const needed = new Set([...(await jobStore.keptPixelIds()), ...pixelIdsHere()]);
      await frameStore.remove([...named].filter((one) => !needed.has(one)));
      return true;
    }),
  );
  if (ended !== true) throw openElsewhere(entry);
  await afterFreeing();
};

/** Prepared files that the proof and the sheets of this page read from. */
export const preparedInUse = (): ReadonlySet<string> =>
  new Set([
    ...[...workStore.getState().prepared.values()].flatMap(({ frame }) => frame.diskName ?? []),
    ...heldOnDisk(),
  ]);

export const endPrepared = async (): Promise<void> => {
  if (workStore.getState().preparing !== undefined)
    throw new Error('Frames are being prepared. Wait until that is done.');
  await freePrepared(preparedInUse());
  await afterFreeing();
};

export const endSheets = async (): Promise<void> => {
  nothingUnderWay();
  // What is no longer there is no longer offered.
  for (const kind of writtenKinds) workStore.getState().set({ [kind]: { stage: 'idle' } });
  await freeSheets();
  await afterFreeing();
};

export const endParallax = async (): Promise<void> => {
  await forgetParallax();
  await afterFreeing();
};
