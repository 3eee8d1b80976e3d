/** A job of which nothing but last words is there: begun just before its page went. */
import { expect, test } from 'vitest';
import { restore } from '../../../src/studio/keep/first-job.ts';
import { beginEmpty, named, page } from '../../files/kept-jobs.ts';
import { makeStudio } from '../support.ts';

beginEmpty();

test('opens again with its change, and is kept from then on', async () => {
  const jobs = page();
  await jobs.createJob(named('The old glasshouse'));
  const words = { after: 0, label: 'view slots', job: named('My copy of The old glasshouse') };
  localStorage.setItem('tiltloom-job-last-words:begun', JSON.stringify(words));
  localStorage.setItem('tiltloom-open-job', 'begun');

  const studio = makeStudio({ jobs });
  await restore(studio, () => Promise.reject(new Error('no first visit')));
  expect(studio.document.getState()).toMatchObject({
    jobId: 'begun',
    job: { name: 'My copy of The old glasshouse' },
  });
  expect((await jobs.listJobs()).map(({ id }) => id)).toContain('begun');
});
