/** Whether the list of jobs is open, and which part of it was asked for. */
import { createStore } from 'zustand/vanilla';

export type JobsPart = 'jobs' | 'room';

export const jobsWindow = createStore<{ readonly open: JobsPart | undefined }>()(() => ({
  open: undefined,
}));

export const openJobs = (part: JobsPart = 'jobs'): void => jobsWindow.setState({ open: part });
export const closeJobs = (): void => jobsWindow.setState({ open: undefined });
