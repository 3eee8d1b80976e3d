/** A printer profile in a job's file. */
import { expect, test } from 'vitest';
import { carriedProfile } from '../../src/files/bundle-profile.ts';
import { writeBundle } from '../../src/files/bundle-write.ts';
import { memorySink } from '../../src/files/sinks.ts';
import type { Job } from '../../src/job/schema/job.ts';
import { jobOf, noise, opened, originalsOf } from './bundle-helpers.ts';

const id = '0123456789abcdef0123456789abcdef';
const inColour = (): Job => ({
  ...jobOf(),
  colour: {
    profileId: id,
    profile: 'Glossy 260',
    paper: 'Glossy 260',
    space: 'CMYK',
    intent: 'relative',
  },
});

const savedWith = async (job: Job, bytes: Uint8Array<ArrayBuffer>) => {
  const sink = memorySink('application/zip');
  await writeBundle(sink, job, originalsOf(job), new Date('2026-11-30T10:00:00Z'), {
    signal: new AbortController().signal,
    report: () => undefined,
    profile: { id, name: 'Glossy 260', file: new Blob([bytes]) },
  });
  return sink.file();
};

test('comes out as it went in, whatever its length', async () => {
  for (const length of [1, 2, 3, 24_575, 24_577, 70_001]) {
    const bytes = noise(length, length);
    const { profile, job } = await opened(await savedWith(inColour(), bytes));
    expect(job.colour?.profileId).toBe(id);
    const found = new Uint8Array((await profile?.file.arrayBuffer()) ?? new ArrayBuffer(0));
    expect(Buffer.from(found).equals(bytes)).toBe(true);
  }
});

test('is left alone where the job names another, or none, or it is no base64 (RFC 4648)', async () => {
  const { profile } = await opened(await savedWith(jobOf(), noise(40)));
  expect(profile).toBeUndefined();
  const listed = { id, name: 'Glossy 260', base64: Buffer.from('profile').toString('base64') };
  const carried = carriedProfile({ profiles: [listed] }, inColour());
  expect(await carried?.file.text()).toBe('profile');
  expect(carriedProfile({ profiles: [{ ...listed, base64: '*' }] }, inColour())).toBeUndefined();
});
