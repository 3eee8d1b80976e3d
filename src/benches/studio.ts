/** The studio as React sees it. */
import { createContext, useContext, useEffect } from 'react';
import { useStore } from 'zustand';
import type { JobEdit } from '../job/edits/edit.ts';
import type { Frame, Job } from '../job/schema/job.ts';
import type { DocumentState } from '../state/document.ts';
import type { ShelvesState } from '../state/shelves.ts';
import type { TaskKind, TaskStates } from '../state/tasks.ts';
import { stateIn } from '../state/tasks.ts';
import type { Units, ViewState } from '../state/view.ts';
import type { WorkState } from '../state/work.ts';
import type { Studio } from '../studio/studio.ts';

export const StudioContext = createContext<Studio | undefined>(undefined);

export const useStudio = (): Studio => {
  const studio = useContext(StudioContext);
  if (studio === undefined) throw new Error('A part of the page is drawn outside the studio.');
  return studio;
};

/** Select one value or one object that the store holds; a new object each time would never settle. */
export const useDocument = <T>(select: (state: DocumentState) => T): T =>
  useStore(useStudio().document, select);
export const useView = <T>(select: (state: ViewState) => T): T =>
  useStore(useStudio().view, select);
export const useUnits = (): Units => useView((view) => view.units);
export const useWork = <T>(select: (state: WorkState) => T): T =>
  useStore(useStudio().work, select);
export const useShelves = <T>(select: (state: ShelvesState) => T): T =>
  useStore(useStudio().shelves, select);

export const useJob = (): Job => useDocument((state) => state.job);

/** Address of the frame's small picture, which is asked for with this; undefined until it has come. */
export const useThumbnail = (frame: Frame | undefined): string | undefined => {
  const { thumbnails } = useStudio();
  useEffect(() => {
    if (frame !== undefined) thumbnails.want(frame);
  }, [thumbnails, frame]);
  return useWork((work) => work.thumbnails.get(frame?.id ?? ''));
};

/** Changes the open job. Returns the sentence that refuses it, if one does. */
export const useChange = (): ((...edit: JobEdit) => string | undefined) => useStudio().change;

/** The same, for edits made of their name and of what changes: `useEdit(changeGang)`. */
export const useEdit = <Change>(edit: (label: string, change: Change) => JobEdit) => {
  const change = useChange();
  return (label: string, to: Change) => change(...edit(label, to));
};

/** How the last work of a kind goes, or went, in the open job. */
export const useTask = <Kind extends keyof TaskStates>(kind: Kind): TaskStates[Kind] => {
  const jobId = useDocument((state) => state.jobId);
  return useStore(useStudio().tasks.store, (tasks) => stateIn(tasks, jobId, kind));
};

/** Whether work of this kind is under way, for whichever job. */
export const useIsRunning = (kind: TaskKind): boolean =>
  useStore(useStudio().tasks.store, ({ running }) => running.some((task) => task.kind === kind));

/** Whether a sheet, or whatever else, is being written to a file. */
export const useIsWeaving = (): boolean =>
  useStore(useStudio().tasks.store, ({ running }) =>
    running.some(({ writes }) => writes !== undefined),
  );

/**
 * Changes whenever another job is opened, or this one may or may no longer be changed. As a key it
 * lets go of what was half typed, which belongs to what was there before.
 */
export const useJobKey = (): string =>
  useDocument(({ jobId, lookOnly }) => `${jobId} ${lookOnly === undefined}`);
