/** The stores, as React sees them. */
import { useStore } from 'zustand';
import type { Job } from '../job/schema/job.ts';
import type { DocumentState } from './document.ts';
import { documentStore } from './document.ts';
import type { ShelvesState } from './shelves.ts';
import { shelvesStore } from './shelves.ts';
import type { TargetState } from './targets.ts';
import { targetStore } from './targets.ts';
import type { ViewState } from './view.ts';
import { viewStore } from './view.ts';
import type { WorkState } from './work.ts';
import { workStore } from './work.ts';

/** Select one value or one object that the store holds; a new object each time would never settle. */
export const useDocument = <T>(select: (state: DocumentState) => T): T =>
  useStore(documentStore, select);
export const useView = <T>(select: (state: ViewState) => T): T => useStore(viewStore, select);
export const useWork = <T>(select: (state: WorkState) => T): T => useStore(workStore, select);

export const useTargets = <T>(select: (state: TargetState) => T): T =>
  useStore(targetStore, select);

export const useShelves = <T>(select: (state: ShelvesState) => T): T =>
  useStore(shelvesStore, select);

/**
 * Changes whenever another job is opened, or this one may or may no longer be changed. As a key it
 * lets go of what was half typed, which belongs to what was there before.
 */
export const useJobKey = (): string =>
  useStore(documentStore, ({ jobId, lookOnly }) => `${jobId} ${lookOnly === undefined}`);

export const useJob = (): Job => useStore(documentStore, (state) => state.job);
