/** What every part of the studio uses: the stores, the registry of work, the browser's disk. */
import { createFrameStore } from '../files/frame-store.ts';
import type { FrameStore } from '../files/frame-store.ts';
import type { KeptRuns } from '../files/kept-runs.ts';
import type { ProfileStore } from '../files/profile-store.ts';
import { createJobStore } from '../files/job-store.ts';
import type { JobStore } from '../files/job-store.ts';
import type { JobEdit } from '../job/edits/edit.ts';
import { withoutSaid } from '../job/edits/guessed.ts';
import { recallPitch } from '../job/facts/pitch-history.ts';
import { isOnJobSheet } from '../job/words/steps.ts';
import { createDocumentStore } from '../state/document.ts';
import { createShelvesStore } from '../state/shelves.ts';
import { createViewStore } from '../state/view.ts';
import { createWorkStore } from '../state/work.ts';
import { createAskBeforeLeaving } from './ask-before-leaving.ts';
import { createTasks } from './tasks.ts';

/** Parts that tests replace, for instance to have two tabs in one test. */
export interface StudioDeps {
  readonly jobs?: JobStore;
  readonly frames?: FrameStore;
  readonly runs?: KeptRuns;
  readonly profiles?: ProfileStore;
}

/** Loaded when it is asked for: a first view does without. */
const runsOnDisk = (given: KeptRuns | undefined): (() => Promise<KeptRuns>) => {
  let made: Promise<KeptRuns> | undefined;
  return () =>
    (made ??=
      given === undefined
        ? import('../files/kept-runs.ts').then(({ createKeptRuns }) => createKeptRuns())
        : Promise.resolve(given));
};

const profilesOnDisk = (given: ProfileStore | undefined): (() => Promise<ProfileStore>) => {
  let made: Promise<ProfileStore> | undefined;
  return () =>
    (made ??=
      given === undefined
        ? import('../files/profile-store.ts').then(({ openProfileStore }) => openProfileStore())
        : Promise.resolve(given));
};

export const createFloor = (
  { jobs = createJobStore(), frames = createFrameStore(), runs, profiles }: StudioDeps,
  onViewUnkept: (error: unknown, writeAgain: () => void) => void,
) => {
  const work = createWorkStore();
  const askBeforeLeaving = createAskBeforeLeaving();
  const view = createViewStore(onViewUnkept);
  const document = createDocumentStore({
    benchOf: (label) => (isOnJobSheet(label) ? undefined : view.getState().lastBench || undefined),
    // Changing to a lens and printer with a proved pitch recalls that pitch.
    follow: (before, after) =>
      recallPitch(before, withoutSaid(before, after), work.getState().pitchReadings),
  });
  return {
    document,
    work,
    view,
    shelves: createShelvesStore(),
    tasks: createTasks(askBeforeLeaving),
    disk: { jobs, frames, runs: runsOnDisk(runs), profiles: profilesOnDisk(profiles) },
    askBeforeLeaving,
    /** Changes the open job: one step to undo. @returns the sentence that refuses it, if one does */
    change: (...edit: JobEdit): string | undefined => document.getState().change(...edit),
    /** The same, but throws that sentence. */
    changeOrThrow: (...edit: JobEdit): void => {
      const refused = document.getState().change(...edit);
      if (refused !== undefined) throw new Error(refused);
    },
    /** Shows a message at the head of the page until it is dismissed. */
    tell: (deskNotice: string): void => work.setState({ deskNotice }),
    /** The same for what went well. */
    inform: (deskNews: string): void => work.setState({ deskNews }),
    /** Tells screen readers what just happened. */
    announce: (said: string): void =>
      work.setState(({ announced }) => ({ announced: { said, serial: announced.serial + 1 } })),
  };
};

export type Floor = Readonly<ReturnType<typeof createFloor>>;
