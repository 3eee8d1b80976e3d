/** Whether the list of jobs is open, and which part of it was asked for. */
import { createStore } from 'zustand/vanilla';

export type JobListPart = 'jobs' | 'room';

export const createJobListWindow = () => {
  const store = createStore<{ readonly part: JobListPart | undefined }>()(() => ({
    part: undefined,
  }));
  return {
    store,
    open: (part: JobListPart = 'jobs'): void => store.setState({ part }),
    close: (): void => store.setState({ part: undefined }),
  };
};

export type JobListWindow = ReturnType<typeof createJobListWindow>;
