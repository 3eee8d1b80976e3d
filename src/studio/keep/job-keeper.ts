/**
 * Between the document and the kept jobs, for one tab: keeps every change, opens another job in its
 * place, and looks on where another tab has the job.
 */
import { frameStore } from '../../files/frame-store.ts';
import { createJobHold, hasLocks } from '../../files/job-hold.ts';
import type { Held } from '../../files/job-hold.ts';
import type { LoadedJob, Settled } from '../../files/job-store.ts';
import { jobStore, Overtaken } from '../../files/job-store.ts';
import { newId } from '../../files/new-id.ts';
import { isNoRoom } from '../../files/room.ts';
import type { Job } from '../../job/schema/job.ts';
import { newJob } from '../../job/schema/job.ts';
import type { DocumentState } from '../../state/document.ts';
import { documentStore } from '../../state/document.ts';
import { workStore } from '../../state/work.ts';
import { rememberOpen } from './last-open.ts';
import {
  TRY_AGAIN_MS,
  foundRoom,
  keepWaiting,
  keepWithRoom,
  onlyHere,
  stillWaiting,
  tellNoRoom,
} from './no-room.ts';

/** Long enough to fold typing into one write, short enough to lose nothing worth a word. */
const SETTLE_MS = 400;

const elsewhere = 'This job is open in another tab. Take it over to change it here.';
export const takenOver = 'Another tab has taken this job over. Take it back to change it here.';

/** A sentence at the head of the page until it is put away. */
export const tell = (message: string) => workStore.getState().set({ deskNotice: message });
const said = (error: unknown): string => (error instanceof Error ? error.message : String(error));

interface Unsaved {
  readonly jobId: string;
  readonly job: Job;
  readonly settled: Settled;
}

let unsaved: Unsaved | undefined;
/** The newest that was set out to be written, whether or not it was. */
let newest: Unsaved | undefined;
let timer: ReturnType<typeof setTimeout> | undefined;
/** Told apart from failures of one write: said once until one succeeds. */
let failing = false;
/** What was said to find no room. */
let roomless = '';

const soon = (afterMs: number): void => {
  clearTimeout(timer);
  timer = setTimeout(() => void flush(), afterMs);
};

const settledBy = (now: DocumentState, before: DocumentState): Settled =>
  now.future.length > before.future.length
    ? { label: `undoing ${now.future.at(-1)?.label ?? ''}`, undone: true }
    : { label: now.past.at(-1)?.label ?? 'as it was opened' };

/** What this tab could not write because another had gone on becomes a job of its own. */
const keepAside = async ({ job }: Unsaved): Promise<void> => {
  const name = `${job.name.slice(0, 170)} (from the other tab)`;
  const kept = await keepWithRoom(`the job “${name}”`, async () => {
    await jobStore.createJob({ ...job, name }, 'as the other tab left it');
    hold.tellKept();
  });
  tell(
    `Another tab had gone on with this job. What was last changed here ${kept ? 'is' : 'will be'} kept as a job of its own, “${name}”${kept ? '' : ', once there is room: leave this page open until then'}.`,
  );
};

const onFailure = async (error: unknown, change: Unsaved): Promise<void> => {
  if (error instanceof Overtaken) {
    documentStore.setState({ lookOnly: takenOver });
    await keepAside(change).catch(() => undefined);
    return;
  }
  // An older state is not written over one that came after it.
  if (change === newest) unsaved ??= change;
  if (unsaved !== undefined) soon(TRY_AGAIN_MS);
  if (failing) return;
  failing = true;
  onlyHere('job', true);
  if (isNoRoom(error)) {
    roomless = `the job “${change.job.name}”`;
    tellNoRoom(roomless);
  } else
    tell(
      `The job could not be kept on this computer (${said(error)}). It is still open here, and keeping it is tried again every ten seconds.`,
    );
};

const write = async (change: Unsaved): Promise<void> => {
  try {
    await jobStore.saveJob(change.jobId, change.job, change.settled);
    failing = false;
    onlyHere('job', false);
    foundRoom(roomless);
    hold.tellKept(change.jobId);
  } catch (error) {
    await onFailure(error, change);
  }
};

let writing: Promise<unknown> = Promise.resolve();

/** Keeps what is not kept yet. Resolves when every write under way has ended; never rejects. */
export const flush = async (): Promise<void> => {
  clearTimeout(timer);
  const change = unsaved;
  unsaved = undefined;
  if (change !== undefined) {
    newest = change;
    writing = Promise.all([writing, write(change)]);
  }
  await writing;
};

const onLost = (): void => {
  documentStore.setState({ lookOnly: takenOver });
  clearTimeout(timer);
  const change = unsaved;
  unsaved = undefined;
  if (change !== undefined) void keepAside(change).catch(() => undefined);
};

/** Where this tab only looks on, it shows what the other one keeps. */
const followOther = async (jobId: string | undefined): Promise<void> => {
  const { jobId: own, lookOnly } = documentStore.getState();
  workStore.getState().set({ jobsChanged: workStore.getState().jobsChanged + 1 });
  if (jobId === undefined || jobId !== own) return;
  if (lookOnly === undefined) {
    // Whoever holds the lock is the only one to write; without locks the later tab has it now.
    if (hasLocks()) return;
    onLost();
  }
  const loaded = await jobStore.loadJobById(jobId);
  const still = documentStore.getState();
  if (loaded.kind === 'job' && still.jobId === jobId && still.lookOnly !== undefined)
    still.open(loaded.job);
};

export const hold = createJobHold({
  beforeHandingOn: flush,
  onLost,
  onKeptElsewhere: (jobId) => void followOther(jobId),
});

/** Steps of earlier visits come behind the job, which need not wait for them. */
const recallSteps = async (id: string, seq: number): Promise<void> => {
  const steps = await jobStore.loadPast(id, seq).catch(() => []);
  const { jobId, past } = documentStore.getState();
  if (jobId !== id) return;
  const recalled = steps.map((step) => ({ ...step, foldKey: undefined }));
  documentStore.setState({ past: [...recalled, ...past] });
};

/** A page that went before a frame's copy was whole leaves a job that names what is nowhere. */
const lookForOriginals = async ({ frames }: Job): Promise<void> => {
  const { jobId } = documentStore.getState();
  workStore.getState().set({ missingOriginals: new Set() });
  const gone = await frameStore.missing(frames.map(({ id }) => id)).catch(() => []);
  if (gone.length > 0 && documentStore.getState().jobId === jobId)
    workStore.getState().set({ missingOriginals: new Set(gone) });
};

/** A step that an earlier visit made on a full disk: it stands in the page again, and is to be kept still. */
const goOnFrom = (
  jobId: string,
  before: Job,
  { job, label }: { job: Job; label: string },
): void => {
  const past = [{ label, before, foldKey: undefined, at: Date.now() }];
  documentStore.getState().open(job, { jobId, past });
  unsaved = { jobId, job, settled: { label } };
  soon(SETTLE_MS);
};

const layIn = (id: string, loaded: LoadedJob & { kind: 'job' }, held: Held): void => {
  documentStore.setState({ lookOnly: held === 'elsewhere' ? elsewhere : undefined });
  documentStore.getState().open(loaded.job, { jobId: id });
  // It came from the disk.
  clearTimeout(timer);
  unsaved = undefined;
  if (loaded.toKeep !== undefined) goOnFrom(id, loaded.job, loaded.toKeep);
  rememberOpen(id);
  void lookForOriginals((loaded.toKeep ?? loaded).job);
  const [torn] = loaded.setAside;
  if (torn !== undefined)
    tell(
      `The newest state of “${loaded.job.name}” could not be read, so the one before it is open. ${torn.reason} ` +
        `Nothing was deleted: it lies in this browser's storage as “${torn.keptAs}”.`,
    );
  if (held !== 'elsewhere') void recallSteps(id, loaded.seq);
};

/** What is woven to a file, by what it is. */
export const writtenKinds = ['weave', 'tiles', 'gang', 'strip', 'slice'] as const;

/** What is under way belongs to the open job, and would go on into another. @throws */
export const nothingUnderWay = (): void => {
  const work = workStore.getState();
  if (work.arriving !== undefined)
    throw new Error('Frames are still being added to the open job. Wait for them or stop them.');
  if (writtenKinds.some((kind) => work[kind].stage === 'weaving'))
    throw new Error('The open job is being woven. Wait until it is done, or stop it.');
};

/** Keeps the present job. @throws when that cannot be done: it must not be left then. */
const settle = async (): Promise<void> => {
  nothingUnderWay();
  await flush();
  if (unsaved === undefined) return;
  throw new Error(
    'The last change of the open job is not kept yet, so it was not left. Free some room, then try again.',
  );
};

/** Tries at once everything that found no room, after some was made; what finds none now is told. */
export const keepAllAgain = async (): Promise<void> => {
  // A file that was woven for nothing is woven anew.
  workStore.getState().set({ noRoomFor: stillWaiting() });
  await keepWaiting();
  failing = false;
  await flush();
};

/** Opens a kept job in the place of the present one, whose last change is kept first. */
export const openKeptJob = async (id: string): Promise<LoadedJob> => {
  await settle();
  const before = documentStore.getState().jobId;
  const held = await hold.hold(id);
  const loaded = await jobStore.openJob(id, held !== 'elsewhere');
  if (loaded.kind === 'job') layIn(id, loaded, held);
  else if (before !== '' && documentStore.getState().lookOnly === undefined)
    await hold.hold(before);
  return loaded;
};

/**
 * Begins a job in the place of the present one. `fill` may lay something in while the page shows that
 * it is coming; whatever becomes of it, there is a job in the end.
 */
export const beginJob = async (fill?: () => Promise<void>): Promise<void> => {
  await settle();
  const jobId = newId();
  await hold.hold(jobId);
  const job = newJob();
  documentStore.setState({ job, jobId, past: [], future: [], ready: false, lookOnly: undefined });
  workStore.getState().set({ missingOriginals: new Set() });
  rememberOpen(jobId);
  if (fill !== undefined) {
    await fill().catch(() => undefined);
    if (documentStore.getState().jobId !== jobId) return;
  }
  if (documentStore.getState().ready) return;
  documentStore.getState().open(job);
  if (fill !== undefined) return;
  unsaved = { jobId, job, settled: { label: 'as it began' } };
  await flush();
};

/** Makes this tab the one that works on the job, and lays in what the other one kept. */
export const takeOver = async (): Promise<void> => {
  const { jobId } = documentStore.getState();
  const held = await hold.takeOver(jobId);
  const loaded = await jobStore.openJob(jobId);
  if (loaded.kind === 'job') return layIn(jobId, loaded, held);
  hold.release();
  tell('This job was deleted for good in another tab. Open another one under Jobs.');
};

/** Keeps the job from now on; at once when the page is about to go. Returns what ends it. */
export const startKeeping = (): (() => void) => {
  const forget = documentStore.subscribe((now, before) => {
    const { job, jobId, lookOnly } = now;
    if (job === before.job || jobId === '' || jobId !== before.jobId) return;
    if (lookOnly !== undefined) return;
    // A step of its own is a state of its own, however quickly it follows.
    if (now.past.at(-1)?.before === before.job) void flush();
    unsaved = { jobId, job, settled: settledBy(now, before) };
    soon(SETTLE_MS);
  });
  const onGoing = () => void flush();
  // A hidden page may still change the job, then be frozen and thrown away without another word.
  document.addEventListener('freeze', onGoing);
  const onLeave = () => {
    // A field that is not left yet commits what is typed there.
    if (document.activeElement instanceof HTMLElement) document.activeElement.blur();
    onGoing();
  };
  const onHide = () => {
    if (document.visibilityState === 'hidden') onGoing();
  };
  addEventListener('pagehide', onLeave);
  document.addEventListener('visibilitychange', onHide);
  return () => {
    onGoing();
    forget();
    removeEventListener('pagehide', onLeave);
    document.removeEventListener('freeze', onGoing);
    document.removeEventListener('visibilitychange', onHide);
  };
};
