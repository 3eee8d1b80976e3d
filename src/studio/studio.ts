/** The application without the screen: one object, made once by the page, and by each test for itself. */
import type { Floor, StudioDeps } from './floor.ts';
import { createFloor } from './floor.ts';
import type { Arrivals } from './frames/arrivals.ts';
import { createArrivals } from './frames/arrivals.ts';
import type { MadeViews } from './frames/made/state.ts';
import { createMadeViews } from './frames/made/state.ts';
import type { Notes } from './frames/notes.ts';
import { createNotes } from './frames/notes.ts';
import type { Thumbnails } from './frames/thumbnails.ts';
import { createThumbnails } from './frames/thumbnails.ts';
import type { JobFile } from './keep/job-file/progress.ts';
import { createJobFile } from './keep/job-file/progress.ts';
import type { JobFileMarks } from './keep/job-file/marks.ts';
import { createJobFileMarks } from './keep/job-file/marks.ts';
import type { JobKeeper } from './keep/job-keeper.ts';
import { createJobKeeper } from './keep/job-keeper.ts';
import type { JobListWindow } from './keep/job-list-window.ts';
import { createJobListWindow } from './keep/job-list-window.ts';
import type { Room } from './keep/no-room.ts';
import { createRoom } from './keep/no-room.ts';
import type { Pitches } from './keep/pitches.ts';
import { createPitches } from './keep/pitches.ts';
import type { Updates } from './keep/updates.ts';
import { createUpdates } from './keep/updates.ts';
import { rememberViewOnFullDisk } from './keep/view.ts';
import type { Preparing } from './prepare/preparing.ts';
import { createPreparing } from './prepare/preparing.ts';
import type { FinishedFiles } from './weave/finished-files.ts';
import { createFinishedFiles } from './weave/finished-files.ts';

export interface Studio extends Floor {
  /** Writes that a full disk refused, and when they are retried. */
  readonly room: Room;
  /** Writes the open job, opens others, and shows a job read-only where another tab has it. */
  readonly keeper: JobKeeper;
  readonly pitches: Pitches;
  readonly jobList: JobListWindow;
  /** Saving and opening job files: one at a time. */
  readonly jobFile: JobFile;
  /** Which state of each job lies in a file. */
  readonly jobFileMarks: JobFileMarks;
  readonly updates: Updates;
  /** What there is to say of files that arrived. */
  readonly notes: Notes;
  /** Batches of frames, one after the other. */
  readonly arrivals: Arrivals;
  readonly thumbnails: Thumbnails;
  readonly made: MadeViews;
  /** The open job's frames, prepared for its sheet. */
  readonly preparing: Preparing;
  /** Woven files that can still be saved. */
  readonly finished: FinishedFiles;
}

export const createStudio = (deps: StudioDeps = {}): Studio => {
  const floor = createFloor(deps, (error, writeAgain) =>
    rememberViewOnFullDisk(room, error, writeAgain),
  );
  const room = createRoom(floor);
  const keeper = createJobKeeper(floor, room);
  const notes = createNotes(floor);
  const jobList = createJobListWindow();
  return {
    ...floor,
    room,
    keeper,
    notes,
    jobList,
    pitches: createPitches(floor, room),
    jobFile: createJobFile(jobList),
    jobFileMarks: createJobFileMarks(floor),
    updates: createUpdates(floor),
    arrivals: createArrivals(floor, notes),
    thumbnails: createThumbnails(floor, notes),
    made: createMadeViews(),
    preparing: createPreparing(floor),
    finished: createFinishedFiles(floor),
  };
};
