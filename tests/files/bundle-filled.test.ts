/** Where made frames were filled: in the job, beside it, and on its way through a job file. */
import sharp from 'sharp';
import { describe, expect, test } from 'vitest';
import { greyPng } from '../../src/core/encode/png-grey.ts';
import { BUNDLE_FORMAT } from '../../src/files/bundle.ts';
import { writeBundle } from '../../src/files/bundle-write.ts';
import { memorySink } from '../../src/files/sinks.ts';
import type { Frame, Job } from '../../src/job/schema/job.ts';
import { restoreJob } from '../../src/job/schema/migrate.ts';
import { holesIdsOf, pixelIdsOf, withHolesThatAre } from '../../src/job/facts/pixels.ts';
import { bytesOf, jobOf, opened, originalsOf, packed } from './bundle-helpers.ts';

const HOLES = '0123456789abcdef0123';
const places = Uint8Array.from({ length: 24 * 16 }, (_, i) => (i % 24 > 20 ? 255 - (i % 5) : 0));
const png = greyPng(24, 16, places);

const made = (frame: Frame, holesId: string | undefined): Frame => ({
  ...frame,
  made: {
    ...{ from: ['view_0.png', 'depth.exr'], way: 'depth', place: 2, count: 2, invented: 0.031 },
    ...(holesId === undefined ? {} : { holesId }),
  },
});
/** Two frames, of which the second was made. */
const madeJob = (holesId: string | undefined = HOLES): Job => {
  const job = jobOf();
  const [first, second] = job.frames as [Frame, Frame];
  return { ...job, frames: [first, made(second, holesId)] };
};
const without = (): Job => {
  const job = jobOf();
  const [first, second] = job.frames as [Frame, Frame];
  return { ...job, frames: [first, made(second, undefined)] };
};

const listed = [
  ...jobOf().frames.map(({ id, name, byteLength }, i) => ({
    id,
    name,
    path: `originals/000${i + 1}.png`,
    bytes: byteLength,
  })),
  { id: HOLES, name: 'filled.png', path: 'originals/0003.png', bytes: png.length },
];
const manifest = (originals = listed) => ({
  what: 'Tiltloom job',
  format: BUNDLE_FORMAT,
  savedAt: '2026-03-01T10:00:00.000Z',
  originals,
});

describe('the job', () => {
  test('may name them, may leave them out, and refuses what is no name', () => {
    for (const job of [madeJob(), without()])
      expect(restoreJob(structuredClone(job))).toEqual({ ok: true, job });
    for (const holesId of ['', 'x'.repeat(61), 7 as never])
      expect(restoreJob(structuredClone(madeJob(holesId)))).toMatchObject({ ok: false });
  });

  test('counts them among what must not be swept, each once', () => {
    const job = madeJob();
    const ids = job.frames.map(({ id }) => id);
    expect(pixelIdsOf(job)).toEqual([...ids, HOLES]);
    expect(pixelIdsOf(without())).toEqual(ids);
    const twice = { ...job, frames: [...job.frames, { ...job.frames[1]!, id: 'a-copy-of-it' }] };
    expect(pixelIdsOf(twice)).toEqual([...ids, 'a-copy-of-it', HOLES]);
    expect(holesIdsOf(twice)).toEqual([HOLES]);
  });

  test('lets go of those that are nowhere, and of nothing else', () => {
    const job = madeJob();
    expect(withHolesThatAre(job, () => true)).toBe(job);
    expect(withHolesThatAre(job, () => false)).toEqual(without());
  });
});

describe('the job file', () => {
  test('carries them, byte for byte and number for number', async () => {
    const job = madeJob();
    const sink = memorySink('application/zip');
    const file = new Blob([png]);
    await writeBundle(
      sink,
      job,
      [...originalsOf(job), { id: HOLES, name: 'filled places of view_1.png.png', file }],
      new Date('2026-03-01T10:00:00Z'),
      { signal: new AbortController().signal, report: () => undefined },
    );
    const back = await opened(await sink.file());
    expect(back.job).toEqual(job);
    expect(back.originals.map(({ id }) => id)).toEqual(pixelIdsOf(job));
    const carried = Buffer.from(await bytesOf(back.originals[2]!.file));
    expect(carried.equals(png)).toBe(true);
    const read = await sharp(carried).toColourspace('b-w').raw().toBuffer();
    expect(read.equals(places)).toBe(true);
  });

  test('without them opens, and they were not kept', async () => {
    const back = await opened(packed({ job: madeJob() }));
    expect(back.job).toEqual(without());
    expect(back.originals).toHaveLength(2);
  });

  test('that lists them and does not hold them, or not unharmed, is refused', async () => {
    await expect(opened(packed({ manifest: manifest(), job: madeJob() }))).rejects.toThrow(
      /filled\.png.*is missing from it/,
    );
    const whole = packed({
      manifest: manifest(),
      job: madeJob(),
      more: { 'originals/0003.png': png },
    });
    expect((await opened(whole)).job).toEqual(madeJob());
    const bytes = Buffer.from(await bytesOf(whole));
    const at = bytes.indexOf(Buffer.from(png.subarray(0, 40)));
    bytes[at + 45]! ^= 1;
    await expect(opened(new Blob([bytes]))).rejects.toThrow(/0003\.png” in it is damaged/);
  });
});
