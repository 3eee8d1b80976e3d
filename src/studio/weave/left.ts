/** What a weave left on the private disk: its whole files, how much there is of the others, and whether it fits the job still. */
import type { KeptRun, KeptRuns } from '../../files/kept-runs.ts';
import type { WholeParallax } from '../../job/facts/parallax.ts';
import type { Job } from '../../job/schema/job.ts';
import type { FileKind, FileState, WovenFile } from '../../state/tasks.ts';
import { changedParts, digestsOf, partsOf, studioPart } from './woven-from.ts';

/** What a weave left: files that are whole, and of the others how many rows. */
export interface Left {
  readonly files: readonly WovenFile[];
  /** 0 … 1; whole files count. */
  readonly share: number;
}

export interface Finished extends Left {
  readonly jobId: string;
  readonly kind: FileKind;
  readonly run: KeptRun;
  readonly pageWent: boolean;
}

/** Jobs have ids of their own; a demo print has a new one each time that it is opened. */
export const ownerOf = (jobId: string, { demo }: Pick<Job, 'demo'>): string =>
  demo === undefined ? jobId : `${DEMO}${demo}`;
const DEMO = 'demo ';
export const isDemoOwner = (owner: string): boolean => owner.startsWith(DEMO);

/** Reads what is there of a weave, and gives its whole files addresses. */
export const whatIsLeft = async (run: KeptRun): Promise<Left> => {
  const { files, given } = run.record();
  const whole: WovenFile[] = [];
  let rowsDone = 0;
  for (const [index, { name, fileName, rows }] of files.entries()) {
    const elsewhere = given.find((one) => one.index === index);
    if (elsewhere !== undefined) {
      whole.push({ name, fileName, byteLength: elsewhere.byteLength, href: undefined });
      rowsDone += rows;
      continue;
    }
    const kept = await run.open(index);
    const file = await kept.file();
    if (file !== undefined)
      whole.push({ name, fileName, byteLength: file.size, href: URL.createObjectURL(file) });
    rowsDone += file ? rows : kept.begun.reduce((sum, band) => sum + band.rows, 0);
  }
  const rows = files.reduce((sum, file) => sum + file.rows, 0);
  return { files: whole, share: rowsDone / Math.max(1, rows) };
};

/** Whether all files of the weave are there. */
export const isWhole = ({ files, run }: Pick<Finished, 'files' | 'run'>): boolean =>
  files.length === run.record().files.length;

/** What has changed since the weave, of what the open job tells; to go on, the studio must be the same too. */
export const changedSince = (
  one: Finished,
  job: Job,
  wholeParallax: WholeParallax | undefined,
): readonly string[] => {
  const parts = partsOf[one.kind](job, wholeParallax);
  const now = digestsOf({ ...parts, ...(!isWhole(one) && studioPart()) });
  return changedParts(one.run.record().dependsOn, now);
};

/** @param message why it failed; left out: it was not */
export const stateOf = (one: Finished, changed: readonly string[], message?: string): FileState => {
  const { run, files, share, pageWent } = one;
  const { files: wanted, seconds } = run.record();
  return {
    stage: isWhole(one) ? 'woven' : message === undefined ? 'stopped' : 'failed',
    files,
    count: wanted.length,
    seconds,
    stale: changed.length > 0,
    ...(message !== undefined && { message }),
    ...(!isWhole(one) && share > 0 && { begun: { share, changed, pageWent } }),
  };
};

/** The state with what has changed by now; undefined if it says so already, or has no files. */
export const restated = (state: FileState, changed: readonly string[]): FileState | undefined => {
  if (state.stage === 'idle' || state.stage === 'weaving') return undefined;
  const stale = changed.length > 0;
  const told = state.begun?.changed ?? changed;
  if (stale === state.stale && changed.join() === told.join()) return undefined;
  return { ...state, stale, ...(state.begun && { begun: { ...state.begun, changed } }) };
};

/**
 * What earlier pages left of a job: the newest of each kind that is wanted. What is older, or holds nothing, is removed.
 * Never rejects.
 */
export const findLeft = async (
  runs: KeptRuns,
  jobId: string,
  job: Job,
  isWanted: (kind: FileKind) => boolean,
): Promise<readonly Finished[]> => {
  const found: Finished[] = [];
  for (const run of await runs.left(ownerOf(jobId, job)).catch(() => [])) {
    const kind = run.record().kind as FileKind;
    const isUsed = kind in partsOf && isWanted(kind) && found.every((one) => one.kind !== kind);
    const left = isUsed ? await whatIsLeft(run).catch(() => undefined) : undefined;
    if (left === undefined || left.share === 0) await run.discard().catch(() => undefined);
    else found.push({ jobId, kind, run, ...left, pageWent: !isWhole({ ...left, run }) });
  }
  return found;
};
