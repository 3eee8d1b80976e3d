/** The application without the screen: one object, which the page makes once and each test for itself. */
import { createColours } from './colour/state.ts';
import type { StudioDeps } from './floor.ts';
import { createFloor } from './floor.ts';
import { createArrivals } from './frames/arrivals.ts';
import { createClips } from './frames/clips/state.ts';
import { createMadeViews } from './frames/made/state.ts';
import { createNotes } from './frames/notes.ts';
import { createThumbnails } from './frames/thumbnails.ts';
import { createJobFile } from './keep/job-file/progress.ts';
import { createJobFileMarks } from './keep/job-file/marks.ts';
import type { JobKeeper } from './keep/job-keeper.ts';
import { createJobKeeper } from './keep/job-keeper.ts';
import { createJobListWindow } from './keep/job-list-window.ts';
import type { Room } from './keep/no-room.ts';
import { createRoom } from './keep/no-room.ts';
import { createPitches } from './keep/pitches.ts';
import { createUpdates } from './keep/updates.ts';
import { rememberViewOnFullDisk } from './keep/view.ts';
import { createPreparing } from './prepare/preparing.ts';
import { createFinishedFiles } from './weave/finished-files.ts';

export const createStudio = (deps: StudioDeps = {}) => {
  const floor = createFloor(deps, (error, writeAgain) =>
    rememberViewOnFullDisk(room, error, writeAgain),
  );
  const room: Room = createRoom(floor);
  const keeper: JobKeeper = createJobKeeper(floor, room);
  const notes = createNotes(floor);
  const jobList = createJobListWindow();
  return {
    ...floor,
    /** Retries writes that a full disk refused. */
    room,
    /** Writes the open job, opens others, and shows a job read-only if another tab has it. */
    keeper,
    /** Messages about files that arrived. */
    notes,
    jobList,
    pitches: createPitches(floor, room),
    /** Saving and opening job files: one at a time. */
    jobFile: createJobFile(jobList),
    /** Which state of each job was saved to a file. */
    jobFileMarks: createJobFileMarks(floor),
    updates: createUpdates(floor),
    /** Batches of frames, one after the other. */
    arrivals: createArrivals(floor, notes),
    thumbnails: createThumbnails(floor, notes),
    made: createMadeViews(),
    /** Clips whose frames are to be chosen. */
    clips: createClips(),
    /** The last tables of printer profiles. */
    colours: createColours(),
    /** The open job's frames, prepared for its sheet. */
    preparing: createPreparing(floor),
    /** Woven files that can still be saved. */
    finished: createFinishedFiles(floor),
  };
};

export type Studio = Readonly<ReturnType<typeof createStudio>>;
