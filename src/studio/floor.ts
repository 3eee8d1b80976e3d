/** What every part of the studio stands on: its stores, the registry of work, the browser's disk. */
import { createFrameStore } from '../files/frame-store.ts';
import type { FrameStore } from '../files/frame-store.ts';
import { createJobStore } from '../files/job-store.ts';
import type { JobStore } from '../files/job-store.ts';
import type { JobEdit } from '../job/edits/edit.ts';
import { recallPitch } from '../job/facts/pitch-history.ts';
import type { DocumentStore } from '../state/document.ts';
import { createDocumentStore } from '../state/document.ts';
import type { ShelvesStore } from '../state/shelves.ts';
import { createShelvesStore } from '../state/shelves.ts';
import type { ViewStore } from '../state/view.ts';
import { createViewStore } from '../state/view.ts';
import type { WorkStore } from '../state/work.ts';
import { createWorkStore } from '../state/work.ts';
import type { AskBeforeLeaving } from './ask-before-leaving.ts';
import { createAskBeforeLeaving } from './ask-before-leaving.ts';
import type { Tasks } from './tasks.ts';
import { createTasks } from './tasks.ts';

/** Parts that each test, and each of two tabs in one test, brings of its own. */
export interface StudioDeps {
  readonly jobs?: JobStore;
  readonly frames?: FrameStore;
}

export interface Floor {
  readonly document: DocumentStore;
  readonly view: ViewStore;
  readonly shelves: ShelvesStore;
  readonly work: WorkStore;
  readonly tasks: Tasks;
  readonly disk: { readonly jobs: JobStore; readonly frames: FrameStore };
  readonly askBeforeLeaving: AskBeforeLeaving;
  /** Changes the open job: one step to undo. Returns the sentence that refuses it, if one does. */
  readonly change: (...edit: JobEdit) => string | undefined;
  /** A sentence at the head of the page until it is dismissed. */
  readonly tell: (message: string) => void;
  /** The same for what went well. */
  readonly inform: (message: string) => void;
  /** What just happened, for those who listen. */
  readonly announce: (said: string) => void;
}

export const createFloor = (
  { jobs = createJobStore(), frames = createFrameStore() }: StudioDeps,
  onViewUnkept: (error: unknown, writeAgain: () => void) => void,
): Floor => {
  const work = createWorkStore();
  const askBeforeLeaving = createAskBeforeLeaving();
  const document = createDocumentStore({
    // A change to a lens and printer whose pitch was proved earlier brings that pitch with it.
    follow: (before, after) => recallPitch(before, after, work.getState().pitchReadings),
  });
  return {
    document,
    work,
    view: createViewStore(onViewUnkept),
    shelves: createShelvesStore(),
    tasks: createTasks(askBeforeLeaving),
    disk: { jobs, frames },
    askBeforeLeaving,
    change: (...edit) => document.getState().change(...edit),
    tell: (deskNotice) => work.setState({ deskNotice }),
    inform: (deskNews) => work.setState({ deskNews }),
    announce: (said) =>
      work.setState(({ announced }) => ({ announced: { said, serial: announced.serial + 1 } })),
  };
};
