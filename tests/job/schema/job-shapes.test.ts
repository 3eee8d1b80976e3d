/**
 * Jobs of every shape that a studio before this one kept, one file each, named after what was new in it.
 * Each was accepted by the schema of the very commit that brought its shape. Those up to 12 are of version 1: fields
 * were only ever added, and are left out in older ones. Version 2 has the printer's dots by its own axes. Whoever
 * changes a shape adds a file and a step.
 */
import { readFileSync, readdirSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Job } from '../../../src/job/schema/job.ts';
import { newJob } from '../../../src/job/schema/job.ts';
import { documentFault } from '../../../src/job/schema/document-fault.ts';
import { restoreJob } from '../../../src/job/schema/migrate.ts';
import { gridOf } from '../../../src/job/facts/printer.ts';
import { digestOf } from '../../../src/job/facts/digest.ts';
import { renamed } from '../../../src/job/schema/renamed.ts';
import { opened, packed } from '../../files/bundle-helpers.ts';

const folder = new URL('job-shapes/', import.meta.url);
const shapes = readdirSync(folder).map(
  (name) => [name, JSON.parse(readFileSync(new URL(name, folder), 'utf8')) as Stored] as const,
);

/** The printer as version 1 kept it, or as it is kept now. */
type Stored = Omit<Job, 'version' | 'printer'> & {
  readonly version: number;
  readonly printer: Job['printer'] | { readonly acrossDpi: number; readonly alongDpi: number };
};

/** As it is kept now: all of them have upright ribs, so dots across the ribs are the carriage's. */
const now = (stored: Stored): Job => {
  const { printer } = stored;
  if ('carriageDpi' in printer) return stored as Job;
  const { acrossDpi: carriageDpi, alongDpi: feedDpi } = printer;
  return { ...stored, version: 2, printer: { carriageDpi, feedDpi } };
};

describe('jobs of earlier studios', () => {
  test.each(shapes)('%s comes back with all that was in it', (_, job) => {
    expect(restoreJob(structuredClone(job))).toEqual({ ok: true, job: now(job) });
  });

  test.each(shapes)('%s opens from a job file', async (_, job) => {
    const pictures = [
      ...job.frames,
      ...job.frames.flatMap(({ made }) =>
        made?.holesId === undefined ? [] : { id: made.holesId, name: 'filled.png', byteLength: 90 },
      ),
    ];
    const originals = pictures.map(({ id, name, byteLength }, i) => ({
      id,
      name,
      path: `originals/000${i + 1}.png`,
      bytes: byteLength,
    }));
    const manifest = { what: 'Tiltloom job', format: 1, savedAt: '2026-03-01', originals };
    const more = Object.fromEntries(
      originals.map(({ path, bytes }) => [path, new Uint8Array(bytes)]),
    );
    const file = packed({ manifest, job, more });
    expect((await opened(file)).job).toEqual(now(job));
  });

  test('every field that a job has today stands in one of them, or is newer than job files', () => {
    const seen = new Set(shapes.flatMap(([, job]) => Object.keys(job)));
    for (const field of Object.keys(newJob())) expect(seen).toContain(field);
  });
});

describe('a job that had its dots across and along the ribs', () => {
  const old = (ribs: 'upright' | 'lying', acrossDpi: number, alongDpi: number) => ({
    ...newJob(),
    version: 1,
    ribs,
    printer: { acrossDpi, alongDpi, driver: 'fine' },
  });

  test.each([
    // Top edge first, rows are the carriage's: across upright ribs, along lying ones.
    ['upright', 1440, 720, { carriageDpi: 1440, feedDpi: 720 }],
    ['upright', 720, 1440, { carriageDpi: 720, feedDpi: 1440, fedFirst: 'top' }],
    ['lying', 1440, 720, { carriageDpi: 720, feedDpi: 1440 }],
    ['lying', 720, 1440, { carriageDpi: 1440, feedDpi: 720, fedFirst: 'top' }],
    ['upright', 600, 600, { carriageDpi: 600, feedDpi: 600 }],
    ['lying', 600, 600, { carriageDpi: 600, feedDpi: 600 }],
  ] as const)('ribs %s, %i × %i, keeps both', (ribs, acrossDpi, alongDpi, printer) => {
    const job = restoredOf(old(ribs, acrossDpi, alongDpi));
    expect(job).toEqual({ ...newJob(), ribs, printer: { driver: 'fine', ...printer } });
    expect(gridOf(job)).toMatchObject({ acrossDpi, alongDpi, fedFirst: 'top' });
  });

  test.each([undefined, 7, null, [720, 720], {}, { acrossDpi: 'fine', alongDpi: 720 }])(
    'is refused with a reason where its printer is %j',
    (printer) => {
      expect(restoreJob({ ...newJob(), version: 1, printer })).toMatchObject({
        ok: false,
        reason: expect.stringMatching(/printer/) as string,
      });
    },
  );
});

describe('whatever is stored', () => {
  test('is restored or refused with a reason, and never throws', () => {
    const anything = fc.anything({
      withBigInt: true,
      withDate: true,
      withMap: true,
      withSet: true,
      withTypedArray: true,
      withSparseArray: true,
      withNullPrototype: true,
      withObjectString: true,
      withBoxedValues: true,
    });
    fc.assert(
      fc.property(anything, fc.constantFrom(...Object.keys(newJob())), (value, field) => {
        for (const stored of [
          value,
          { ...newJob(), [field]: value },
          { ...newJob(), extra: value },
        ]) {
          const restored = restoreJob(stored);
          if (restored.ok) expect(() => JSON.stringify(restored.job)).not.toThrow();
          else expect(restored.reason).not.toBe('');
        }
      }),
      { numRuns: 400, seed: 20261125 },
    );
  });

  test('a job that holds itself is refused', () => {
    const job: Record<string, unknown> = { ...newJob() };
    job['again'] = { job };
    expect(restoreJob(job)).toMatchObject({
      ok: false,
      reason: expect.stringMatching(/refers to itself/) as string,
    });
  });

  test.each([NaN, Infinity, -Infinity])('%s is refused wherever it stands', (number) => {
    expect(restoreJob({ ...newJob(), later: [{ depth: number }] })).toMatchObject({ ok: false });
  });

  test('a foreign prototype changes nothing for others', () => {
    const stored: unknown = JSON.parse('{"version":1,"__proto__":{"polluted":true}}');
    expect(restoreJob(stored)).toMatchObject({ ok: false });
    expect(documentFault(JSON.parse('{"a":{"constructor":{"prototype":1}}}'))).toMatch(
      /constructor/,
    );
    expect(({} as { polluted?: unknown }).polluted).toBeUndefined();
  });
});

test('equal jobs have equal digests, in whatever order their fields stand', () => {
  const job = newJob();
  const turned = Object.fromEntries(Object.entries(job).reverse()) as Job;
  expect(digestOf(turned)).toBe(digestOf(job));
  expect(digestOf({ ...job, viewSlots: 13 })).not.toBe(digestOf(job));
  expect(digestOf(restoredOf(job))).toBe(digestOf(job));
});

const restoredOf = (job: object): Job => {
  const restored = restoreJob(job);
  if (!restored.ok) throw new Error(restored.reason);
  return restored.job;
};

test('pictures are renamed wherever the job speaks of them, and nothing else is', () => {
  const [, job] = shapes.find(([name]) => name === '05-recipe.json')!;
  const [one, two] = job.frames.map(({ id }) => id) as [string, string];
  const names = new Map([
    [one, 'new-1'],
    [two, 'new-2'],
  ]);
  const later = { ...job, seenBy: { [one]: [two] } };
  const text = JSON.stringify(later)
    .replaceAll(`"${one}"`, '"new-1"')
    .replaceAll(`"${two}"`, '"new-2"')
    .replace('"new-1":', `"${one}":`);
  expect(renamed(later, names)).toEqual(JSON.parse(text));
});
