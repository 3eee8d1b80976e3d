/** A job that another tab works on: nothing here changes it, and the reason is told. */
import { expect, it } from 'vitest';
import { newJob } from '../../src/job/schema/job.ts';
import { createDocumentStore } from '../../src/state/document.ts';
import { makeStudio } from './support.ts';

it('refuses changes, undo and redo, and counts them', () => {
  const store = createDocumentStore();
  const { open, change, undo, redo } = store.getState();
  open(newJob(), { jobId: 'gull' });
  change('slots', (job) => ({ ...job, viewSlots: 7 }));
  change('slots', (job) => ({ ...job, viewSlots: 8 }));
  undo();
  const before = store.getState();
  store.setState({ lookOnly: 'Open elsewhere.' });
  change('slots', (job) => ({ ...job, viewSlots: 9 }));
  undo();
  redo();
  const { job, past, future, refused } = store.getState();
  expect({ job, past, future }).toEqual({
    job: before.job,
    past: before.past,
    future: before.future,
  });
  expect(refused).toBe(3);
  store.setState({ lookOnly: undefined });
  redo();
  expect(store.getState().job.viewSlots).toBe(8);
});

it('keeps its id beside the job, through undo and another state laid in', () => {
  const store = createDocumentStore();
  store.getState().open(newJob(), { jobId: 'gull' });
  store.getState().change('name', (job) => ({ ...job, name: 'Gull' }));
  store.getState().undo();
  store.getState().open(newJob());
  expect(store.getState().jobId).toBe('gull');
  expect(store.getState().job).not.toHaveProperty('jobId');
});

it('gives a field the reason', () => {
  const studio = makeStudio();
  studio.document.setState({ lookOnly: 'Open elsewhere.' });
  expect(studio.change('slots', (job) => ({ ...job, viewSlots: 5 }))).toBe('Open elsewhere.');
  expect(studio.document.getState().job.viewSlots).toBe(newJob().viewSlots);
});
