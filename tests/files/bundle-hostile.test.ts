import { deflateSync } from 'node:zlib';
import { afterEach, describe, expect, test, vi } from 'vitest';
import { bundleLimits } from '../../src/files/bundle.ts';
import { readBundle } from '../../src/files/bundle-read.ts';
import { bytesOf, jobOf, noise, opened, packed, saved } from './bundle-helpers.ts';

afterEach(() => vi.restoreAllMocks());

const manifestOf = async (change: (manifest: Record<string, unknown>) => unknown) => {
  const text = await (await saved()).text();
  const json = text.slice(text.indexOf('{'), text.indexOf('PK', 60));
  const end = json.lastIndexOf('}') + 1;
  return packed({ manifest: change(JSON.parse(json.slice(0, end)) as Record<string, unknown>) });
};

/** A zip written by hand after PKWARE APPNOTE 6.3.10, so that each of its numbers can lie. */
interface Forged {
  readonly path: string;
  readonly content: Uint8Array;
  readonly method?: number;
  readonly states?: number;
  readonly flags?: number;
  readonly localPath?: string;
  /** Points at the header of the entry with this number instead of its own. */
  readonly sharesHeaderOf?: number;
  readonly crc?: number;
}
const forge = (entries: readonly Forged[]): Blob => {
  const parts: Buffer[] = [];
  const list: Buffer[] = [];
  const places: number[] = [];
  let at = 0;
  for (const { path, content, method = 0, flags = 0, crc = 0, ...rest } of entries) {
    const numbers = Buffer.alloc(16);
    numbers.writeUInt32LE(crc, 4);
    numbers.writeUInt32LE(content.length, 8);
    numbers.writeUInt32LE(rest.states ?? content.length, 12);
    const head = Buffer.alloc(10);
    head.writeUInt16LE(20, 0);
    head.writeUInt16LE(flags, 2);
    head.writeUInt16LE(method, 4);
    const local = Buffer.from(rest.localPath ?? path, 'latin1');
    const tail = Buffer.alloc(4);
    tail.writeUInt16LE(local.length, 0);
    const header = Buffer.concat([
      Buffer.from('PK\x03\x04', 'latin1'),
      head.subarray(0, 6),
      Buffer.alloc(4),
      numbers.subarray(4),
      tail,
      local,
    ]);
    places.push(at);
    const name = Buffer.from(path, 'latin1');
    const record = Buffer.alloc(46);
    record.write('PK\x01\x02', 'latin1');
    head.copy(record, 6, 0, 6);
    record.writeUInt16LE(20, 4);
    numbers.copy(record, 16, 4);
    record.writeUInt16LE(name.length, 28);
    record.writeUInt32LE(places[rest.sharesHeaderOf ?? places.length - 1] ?? 0, 42);
    list.push(record, name);
    parts.push(header, Buffer.from(content));
    at += header.length + content.length;
  }
  const directory = Buffer.concat(list);
  const end = Buffer.alloc(22);
  end.write('PK\x05\x06', 'latin1');
  end.writeUInt16LE(entries.length, 8);
  end.writeUInt16LE(entries.length, 10);
  end.writeUInt32LE(directory.length, 12);
  end.writeUInt32LE(at, 16);
  return new Blob([...parts, directory, end].map((part) => new Uint8Array(part)));
};

const zeros = new Uint8Array(64 * 2 ** 20);
const bomb = new Uint8Array(deflateSync(zeros, { level: 9, finishFlush: 4 }).subarray(2));
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
    () => forge([{ path: 'originals/0001.png', content: bomb, method: 8, states: zeros.length }]),
    /more than 200 times its size/,
  ],
  [
    'a document of 64 MB',
    () => forge([{ path: 'job.json', content: bomb, method: 8, states: zeros.length }]),
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
  ['a newer job', withJob({ version: 2 }), /newer studio/],
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

  test('the page has its turn while little unpacks to much', async () => {
    // Every look at the clock is a long time after the last.
    let now = 0;
    vi.spyOn(performance, 'now').mockImplementation(() => (now += 100));
    let [turns, counting] = [0, true];
    const count = () => {
      turns += 1;
      if (counting) setTimeout(count);
    };
    const megabytes = 64;
    const file = forge([
      { path: 'tiltloom.json', content: bomb, method: 8, states: megabytes * 2 ** 20 },
    ]);
    expect(bomb.length).toBeLessThan(2 * 65536);
    setTimeout(count);
    const read = readBundle(file, 'print.tiltloom.zip', {
      signal: new AbortController().signal,
      report: () => undefined,
      limits: { ...bundleLimits, jsonBytes: 2 ** 30, ratio: 2000 },
    });
    await expect(read).rejects.toThrow(/its checksum is not the one/);
    counting = false;
    // At the most 4 MB are unpacked in one go.
    expect(turns).toBeGreaterThanOrEqual(megabytes / 4);
  });
});
