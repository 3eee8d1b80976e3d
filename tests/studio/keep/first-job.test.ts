/** What a visit opens with. */
import { expect, test, vi } from 'vitest';
import { restore } from '../../../src/studio/keep/first-job.ts';
import { makeStudio } from '../support.ts';

test('where the browser has no database the job goes on in memory, and that is said', async () => {
  // Node has no indexedDB: the very case.
  const studio = makeStudio();
  await restore(studio, () => Promise.reject(new Error('no demo')));
  await vi.waitFor(() => expect(studio.document.getState().ready).toBe(true));
  expect(studio.work.getState().deskNotice).toMatch(/lasts as long as this page stays open/);
});
