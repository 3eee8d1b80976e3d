import { describe, expect, test } from 'vitest';
import { bundleLimits } from '../../src/files/bundle.ts';
import { readBundle } from '../../src/files/bundle-read.ts';
import { bomb, bytesOf, forge, jobOf, noise, opened, packed, saved } from './bundle-helpers.ts';

const manifestOf = async (change: (manifest: Record<string, unknown>) => unknown) => {
  const text = await (await saved()).text();
  // A lone brace may stand before it: the header holds the time of day.
  const json = text.slice(text.indexOf('{\n'), text.indexOf('PK', 60));
  const end = json.lastIndexOf('}') + 1;
  return packed({ manifest: change(JSON.parse(json.slice(0, end)) as Record<string, unknown>) });
};

const text = (value: string) => new TextEncoder().encode(value);
const png = noise(40);

const withJob = (change: object) => () => packed({ job: { ...jobOf(), ...change } });
const rawJob = (change: (json: string) => string) => () =>
  packed({ job: change(JSON.stringify(jobOf())) });

const cases: readonly (readonly [string, () => Blob | Promise<Blob>, RegExp])[] = [
  ['an empty file', () => new Blob([]), /is empty/],
  ['something else', () => new Blob([text('Pressed ferns, page 3')]), /no job file/],
  ['a zip of frames', () => packed({ without: ['tiltloom.json'] }), /no job file: “tiltloom.json”/],
  // Path tricks.
  ...[
    '../job.json',
    '/etc/passwd',
    'originals/../../x.png',
    'C:\\x.png',
    'originals\\a.png',
    'a\0b',
  ].map(
    (path) =>
      [
        `the path ${JSON.stringify(path)}`,
        () => forge([{ path, content: png }]),
        /a path that no job file has/,
      ] as const,
  ),
  [
    'a name that is another in the list',
    () => forge([{ path: 'job.json', localPath: 'jib.json', content: png }]),
    /does not agree with what it holds/,
  ],
  [
    'a file that nothing lists',
    () => packed({ more: { 'originals/x.png': png } }),
    /does not name/,
  ],
  [
    'the same name twice',
    () =>
      forge([
        { path: 'job.json', content: png },
        { path: 'job.json', content: png },
      ]),
    /“job.json” twice/,
  ],
  // Bombs.
  [
    'an entry that unpacks a thousandfold',
    () => forge([{ path: 'originals/0001.png', content: bomb, method: 8, states: 64 * 2 ** 20 }]),
    /more than 200 times its size/,
  ],
  [
    'a document of 64 MB',
    () => forge([{ path: 'job.json', content: bomb, method: 8, states: 64 * 2 ** 20 }]),
    /unpacks to 64 MB; up to 16 MB/,
  ],
  [
    'an entry that unpacks to more than it states',
    () =>
      forge([
        { path: 'tiltloom.json', content: bomb, method: 8, states: 1000 },
        { path: 'job.json', content: png },
      ]),
    /unpacks to more than it states/,
  ],
  [
    'entries that share their bytes',
    () =>
      forge([
        { path: 'tiltloom.json', content: png },
        { path: 'job.json', content: png, localPath: 'job.json', sharesHeaderOf: 0 },
      ]),
    /does not agree/,
  ],
  [
    'gigabytes stated in all',
    () =>
      forge(
        Array.from({ length: 6 }, (_, i) => ({
          path: `originals/${i}.png`,
          content: noise(5_400_000),
          method: 8,
          states: 2 ** 30 - 1,
        })),
      ),
    /unpacks to 6144 MB/,
  ],
  [
    'thousands of entries',
    () =>
      forge(
        Array.from({ length: bundleLimits.entries + 1 }, (_, i) => ({
          path: `originals/${i}.png`,
          content: new Uint8Array(),
        })),
      ),
    /holds 5001 entries/,
  ],
  // Locked, strangely packed.
  [
    'a password',
    () => forge([{ path: 'job.json', content: png, flags: 1 }]),
    /locked with a password/,
  ],
  ['LZMA', () => forge([{ path: 'job.json', content: png, method: 14 }]), /packed in a way/],
  // Wrong documents.
  ['no JSON', () => packed({ job: '{"version":1,' }), /“job.json” in it is not readable as JSON/],
  ['not-a-number', rawJob((json) => json.replace('0.84', 'NaN')), /not readable as JSON/],
  [
    'a number past all numbers',
    rawJob((json) => json.replace('0.84', '1e999')),
    /an invalid number/,
  ],
  [
    'another prototype',
    rawJob((json) => json.replace('{', '{"__proto__":{"ready":true},')),
    /a field called “__proto__”/,
  ],
  ['brackets without end', () => packed({ job: '['.repeat(500_000) }), /not readable as JSON/],
  [
    'fifty levels',
    () => packed({ job: `{"version":1,"x":${'['.repeat(50)}${']'.repeat(50)}}` }),
    /nested more than 40 deep/,
  ],
  ['a list for a job', () => packed({ job: [] }), /does not hold a job/],
  ['wrong types', withJob({ viewSlots: 'twelve' }), /viewSlots/],
  [
    'a lens of nothing',
    withJob({ lens: { pitchMm: 0, thicknessMm: 1, index: 1.5 } }),
    /Lens pitch/,
  ],
  [
    'giant frames',
    () =>
      packed({ job: { ...jobOf(), frames: jobOf().frames.map((f) => ({ ...f, widthPx: 4e9 })) } }),
    /frames\.0\.widthPx.*at most 100000/,
  ],
  ['a newer job', withJob({ version: 99 }), /newer studio/],
  ['a newer file', () => manifestOf((m) => ({ ...m, format: 2 })), /newer studio \(file format 2/],
  [
    'a foreign mark',
    () => manifestOf((m) => ({ ...m, what: 'Fern press' })),
    /not marked as a job/,
  ],
  [
    'a list with a path outside',
    () =>
      manifestOf((m) => ({
        ...m,
        originals: [{ id: 'a1b2c3d4e5f600112233', path: '../x.png', name: 'x', bytes: 3 }],
      })),
    /originals\.0\.path/,
  ],
  // Pictures.
  [
    'a missing picture',
    () => packed({ without: ['originals/0002.png'] }),
    /view_1.png.*is missing/,
  ],
  [
    'a picture of another length',
    () => packed({ more: { 'originals/0002.png': noise(901, 2) } }),
    /901 bytes long, and 900 by the list/,
  ],
  [
    'a frame that is not in it',
    withJob({ frames: [...jobOf().frames, { ...jobOf().frames[0], id: '00000000000000000000' }] }),
    /view_0.png of the job is missing/,
  ],
  [
    'a frame twice',
    withJob({ frames: [...jobOf().frames, ...jobOf().frames] }),
    /the frame view_0.png twice/,
  ],
];

describe('refused with the reason', () => {
  test.each(cases)('%s', async (_, make, reason) => {
    const file = await make();
    await expect(opened(file)).rejects.toMatchObject({
      name: 'StudioError',
      file: 'print.tiltloom.zip',
      message: expect.stringMatching(reason) as string,
    });
  });

  test('a picture whose checksum is another', async () => {
    const bytes = await bytesOf(await saved());
    const at = Buffer.from(bytes).indexOf(Buffer.from(noise(900, 2)));
    bytes[at + 450]! ^= 4;
    await expect(opened(new Blob([bytes]))).rejects.toThrow(
      /“originals\/0002.png” in it is damaged/,
    );
  });

  test('a file that can no longer be read', async () => {
    const gone = await saved();
    gone.slice = () => ({ arrayBuffer: () => Promise.reject(new Error('gone')) }) as Blob;
    await expect(opened(gone)).rejects.toThrow(/moved, changed or deleted/);
  });

  test('limits are counted, not believed', async () => {
    const read = readBundle(await saved(), 'print.tiltloom.zip', {
      signal: new AbortController().signal,
      report: () => undefined,
      limits: { ...bundleLimits, originalBytes: 800 },
    });
    await expect(read).rejects.toThrow(/“originals\/0002.png” in it unpacks to/);
  });
});
