/**
 * Decides which tab may write a job. The tab that works on it holds a lock with the job's id. Another tab shows the
 * job read-only and can take it over: the first tab hands it over once its last change is stored, or loses it if
 * it does not answer. Tabs also tell each other what was stored. Without locks any tab may write; the store
 * makes sure that none overwrites a newer state.
 */
import * as v from 'valibot';

/** `unsupported`: this browser has no locks. */
export type Held = 'here' | 'elsewhere' | 'unsupported';

const jobIdSchema = v.pipe(v.string(), v.nonEmpty(), v.maxLength(200));
/** What another page of this address may say: it can be of another version, or no page of the studio. */
const messageSchema = v.variant('kind', [
  v.object({ kind: v.literal('hand-over'), jobId: jobIdSchema }),
  /** A job's newest state was stored, or without a job the list of jobs has changed. */
  v.object({ kind: v.literal('kept'), jobId: v.exactOptional(jobIdSchema) }),
]);
type Message = v.InferOutput<typeof messageSchema>;

const CHANNEL = 'tiltloom-jobs';
/** How long the other tab may take to hand the job over: it first finishes a write, perhaps to a slow disk. */
const PATIENCE_MS = 3000;

const lockName = (id: string) => `tiltloom-job-${id}`;
export const hasLocks = (): boolean => typeof navigator !== 'undefined' && 'locks' in navigator;

export interface HoldEvents {
  /** Another tab asks for the job. Resolves when the last change is stored. */
  readonly beforeHandingOn: () => Promise<void>;
  /** Another tab has the job from now on. */
  readonly onLost: () => void;
  /** Another tab stored a state of this job; undefined: the list of jobs has changed. */
  readonly onKeptElsewhere: (jobId: string | undefined) => void;
}

export const createJobHold = (events: HoldEvents) => {
  /** @returns undefined, and does nothing, if another tab has the job */
  const whileFree = async <T>(id: string, task: () => Promise<T>): Promise<T | undefined> => {
    if (!hasLocks() || own?.id === id) return task();
    return navigator.locks.request(lockName(id), { ifAvailable: true }, async (lock) =>
      lock === null ? undefined : task(),
    );
  };

  const channel =
    typeof BroadcastChannel === 'undefined' ? undefined : new BroadcastChannel(CHANNEL);
  let own: { readonly id: string; readonly letGo: () => void } | undefined;

  /** Resolves with true once the lock is held; with false if it is not to be had. */
  const grab = (id: string, options: LockOptions): Promise<boolean> =>
    new Promise((resolve) => {
      let letGo: () => void = () => undefined;
      navigator.locks
        .request(lockName(id), options, (lock) => {
          if (lock === null) return resolve(false);
          const held = new Promise<void>((release) => {
            letGo = release;
          });
          own = { id, letGo };
          resolve(true);
          return held;
        })
        .catch(() => {
          // Another tab took the lock, or it was not free in time.
          const lost = own?.letGo === letGo;
          if (lost) own = undefined;
          resolve(false);
          if (lost) events.onLost();
        });
    });

  const release = (): void => {
    own?.letGo();
    own = undefined;
  };

  const handOn = async (id: string): Promise<void> => {
    const asked = own;
    if (asked?.id !== id) return;
    await events.beforeHandingOn().catch(() => undefined);
    if (own !== asked) return;
    release();
    events.onLost();
  };

  channel?.addEventListener('message', ({ data }: MessageEvent<unknown>) => {
    const { success, output } = v.safeParse(messageSchema, data);
    if (!success) return;
    if (output.kind === 'hand-over') void handOn(output.jobId);
    else events.onKeptElsewhere(output.jobId);
  });

  return {
    /** Takes the job for this tab if no other tab has it, and releases the job before. */
    hold: async (id: string): Promise<Held> => {
      if (!hasLocks()) return 'unsupported';
      if (own?.id === id) return 'here';
      release();
      return (await grab(id, { ifAvailable: true })) ? 'here' : 'elsewhere';
    },

    /** Takes the job even if another tab has it. */
    takeOver: async (id: string): Promise<Held> => {
      if (!hasLocks()) return 'unsupported';
      release();
      channel?.postMessage({ kind: 'hand-over', jobId: id } satisfies Message);
      if (await grab(id, { signal: AbortSignal.timeout(PATIENCE_MS) })) return 'here';
      return (await grab(id, { steal: true })) ? 'here' : 'elsewhere';
    },

    release,

    /** Whether no other tab has the job. */
    isFree: async (id: string): Promise<boolean> =>
      (await whileFree(id, async () => true)) === true,

    /** Runs the task while no other tab has the job or can take it. */
    whileFree,

    tellKept: (jobId?: string): void =>
      channel?.postMessage({
        kind: 'kept',
        ...(jobId === undefined ? {} : { jobId }),
      } satisfies Message),
  };
};

export type JobHold = ReturnType<typeof createJobHold>;
