/** What a person does with the list of jobs. Each function rejects with a sentence if it cannot be done. */
import { nameInText } from '../../core/names/shown.ts';
import { freePrepared, freeSheets } from '../../files/freeable.ts';
import type { KeptJobEntry } from '../../files/job-store.ts';
import { forgetParallax } from '../../files/parallax-store.ts';
import { whileRemoving } from '../../files/picture-locks.ts';
import { ownCopyOf } from '../../job/edits/begin.ts';
import { pixelIdsOf } from '../../job/facts/pixels.ts';
import type { DocumentState } from '../../state/document.ts';
import type { Studio } from '../studio.ts';

/** A demo print is open under an id of its own. */
export const isOpen = (
  { jobId, job }: Pick<DocumentState, 'jobId' | 'job'>,
  { id, demo }: KeptJobEntry,
): boolean => jobId === id || (demo !== undefined && demo === job.demo);

const isOpenHere = ({ document }: Studio, entry: KeptJobEntry): boolean =>
  isOpen(document.getState(), entry);

const openElsewhere = ({ name }: KeptJobEntry): Error =>
  new Error(
    `“${nameInText(name)}” is open in another tab. Close it there, or open another job there.`,
  );

const notElsewhere = async ({ keeper }: Studio, entry: KeptJobEntry): Promise<void> => {
  if (!(await keeper.hold.isFree(entry.id))) throw openElsewhere(entry);
};

export const openListed = async (studio: Studio, entry: KeptJobEntry): Promise<void> => {
  const { id, name } = entry;
  if (isOpenHere(studio, entry)) return;
  const loaded = await studio.keeper.open(id);
  studio.keeper.listChanged();
  // The notes are about the job that was open before.
  if (loaded.kind === 'job') return studio.notes.dismissAll();
  throw new Error(
    loaded.kind === 'none'
      ? `“${nameInText(name)}” is no longer there: it was deleted in another tab.`
      : `“${nameInText(name)}” could not be read: ${loaded.setAside[0]?.reason ?? ''} Nothing was deleted: it lies in this browser’s storage as “${loaded.setAside[0]?.keptAs ?? ''}”.`,
  );
};

export const beginNew = async ({ keeper, notes }: Studio): Promise<void> => {
  await keeper.begin();
  notes.dismissAll();
  keeper.listChanged();
};

export const beginDemo = async (studio: Studio, name: string): Promise<void> => {
  const { openDemo } = await import('../frames/demos.ts');
  await openDemo(studio, name);
  studio.notes.dismissAll();
  studio.keeper.listChanged();
};

export const copyListed = async (studio: Studio, entry: KeptJobEntry): Promise<string> => {
  const { id, name } = entry;
  const { keeper, disk } = studio;
  if (isOpenHere(studio, entry)) await keeper.flush();
  if ((await disk.jobs.copyJob(id)) === undefined)
    throw new Error(`“${nameInText(name)}” could not be read.`);
  keeper.listChanged();
  return `A copy of “${nameInText(name)}” is there.`;
};

export const renameListed = async (
  studio: Studio,
  entry: KeptJobEntry,
  wanted: string,
): Promise<void> => {
  const { keeper, changeOrThrow } = studio;
  const { jobs } = studio.disk;
  const name = wanted === '' ? 'Untitled print' : wanted;
  if (isOpenHere(studio, entry)) {
    changeOrThrow('job name', (job) => ({ ...job, name }));
    await keeper.flush();
  } else {
    await notElsewhere(studio, entry);
    const loaded = await jobs.openJob(entry.id);
    if (loaded.kind !== 'job') throw new Error(`“${nameInText(entry.name)}” could not be read.`);
    // A demo under another name is a copy of it.
    if (entry.demo === undefined)
      await jobs.saveJob(entry.id, { ...loaded.job, name }, { label: 'job name' });
    else await jobs.createJob({ ...ownCopyOf(loaded.job), name });
  }
  keeper.listChanged();
};

/** Moves a job to the bin. If it is the open job, opens the newest other one, or a new one. */
export const deleteListed = async (studio: Studio, entry: KeptJobEntry): Promise<void> => {
  const { keeper, notes, tasks } = studio;
  const { jobs } = studio.disk;
  await notElsewhere(studio, entry);
  if (isOpenHere(studio, entry)) {
    tasks.nothingUnderWay();
    const [next] = (await jobs.listJobs()).filter(({ id }) => id !== entry.id);
    if (next === undefined || (await keeper.open(next.id)).kind !== 'job') await keeper.begin();
    notes.dismissAll();
  }
  await jobs.deleteJob(entry.id);
  keeper.listChanged();
};

export const bringBack = async ({ keeper, disk }: Studio, { id }: KeptJobEntry): Promise<void> => {
  await disk.jobs.bringBack(id);
  keeper.listChanged();
};

/** Retries writes that a full disk refused. */
const afterFreeing = async ({ keeper }: Studio): Promise<void> => {
  await keeper.keepAllAgain();
  keeper.listChanged();
};

/** Pictures that the open job or its undo steps name. The page has more steps than the disk. */
const pixelIdsHere = ({ document }: Studio): string[] => {
  const { job, past, future } = document.getState();
  return [job, ...[...past, ...future].map(({ before }) => before)].flatMap(pixelIdsOf);
};

/** Deletes a job for good, with every picture that no other kept job names. */
export const endListed = async (studio: Studio, entry: KeptJobEntry): Promise<void> => {
  const { id, name, deletedAt } = entry;
  const { jobs, frames } = studio.disk;
  const ended = await studio.keeper.hold.whileFree(id, () =>
    whileRemoving(async () => {
      const named = await jobs.pixelIdsOfJob(id);
      if (!(await jobs.endJob(id, deletedAt !== undefined)))
        throw new Error(
          `“${nameInText(name)}” was brought back in another tab, so it was left as it is.`,
        );
      const needed = new Set([...(await jobs.keptPixelIds()), ...pixelIdsHere(studio)]);
      await frames.remove([...named].filter((one) => !needed.has(one)));
      return true;
    }),
  );
  if (ended !== true) throw openElsewhere(entry);
  studio.finished.forgetJob(id);
  await afterFreeing(studio);
};

export const endPrepared = async (studio: Studio): Promise<void> => {
  if (studio.tasks.isRunning('prepared'))
    throw new Error('Frames are being prepared. Wait until that is done.');
  await freePrepared(studio.preparing.inUse());
  await afterFreeing(studio);
};

export const endSheets = async (studio: Studio): Promise<void> => {
  studio.tasks.nothingUnderWay();
  studio.finished.forgetAll();
  await freeSheets();
  await afterFreeing(studio);
};

export const endParallax = async (studio: Studio): Promise<void> => {
  await forgetParallax();
  await afterFreeing(studio);
};
