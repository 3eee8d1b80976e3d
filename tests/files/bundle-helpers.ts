/** Job files made for tests: one that is right, and ways to make it wrong. */
import { deflateSync } from 'node:zlib';
import { strToU8, zipSync } from 'fflate';
import { BUNDLE_FORMAT } from '../../src/files/bundle.ts';
import type { OpenedBundle } from '../../src/files/bundle-read.ts';
import { readBundle } from '../../src/files/bundle-read.ts';
import { writeBundle } from '../../src/files/bundle-write.ts';
import { memorySink } from '../../src/files/sinks.ts';
import type { Frame, Job } from '../../src/job/schema/job.ts';
import { newJob } from '../../src/job/schema/job.ts';

export const frameOf = (id: string, name: string, byteLength: number): Frame => ({
  id,
  name,
  byteLength,
  widthPx: 24,
  heightPx: 16,
  kind: 'PNG, 8 bit',
  sceneLinear: false,
  meanLight: 0.4,
});

/** Bytes that do not repeat. */
export const noise = (length: number, seed = 1): Uint8Array<ArrayBuffer> => {
  let state = seed >>> 0 || 1;
  return new Uint8Array(length).map(() => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state >>> 24;
  });
};

export const IDS = ['a1b2c3d4e5f600112233', 'ffeeddccbbaa99887766'] as const;

export const jobOf = (sizes: readonly number[] = [700, 900]): Job => ({
  ...newJob(),
  name: 'Glasshouse at dusk',
  frames: sizes.map((bytes, i) => frameOf(IDS[i] ?? `frame-number-${i}`, `view_${i}.png`, bytes)),
});

export const originalsOf = (job: Job) =>
  job.frames.map(({ id, name, byteLength }, i) => ({
    id,
    name,
    file: new Blob([noise(byteLength, i + 1)]),
  }));

export const saved = async (job: Job = jobOf()): Promise<Blob> => {
  const sink = memorySink('application/zip');
  await writeBundle(sink, job, originalsOf(job), new Date('2026-03-01T10:00:00Z'), {
    signal: new AbortController().signal,
    report: () => undefined,
  });
  return sink.file();
};

export const opened = async (file: Blob, name = 'print.tiltloom.zip'): Promise<OpenedBundle> => {
  const outcome = await readBundle(file, name, {
    signal: new AbortController().signal,
    report: () => undefined,
  });
  if (!outcome.done) throw new Error('stopped, though nobody stopped it');
  return outcome.value;
};

type Zippable = Parameters<typeof zipSync>[0];

/** A job file packed by fflate's own packer, with any of its entries replaced or left out. */
export const packed = (
  change: {
    manifest?: unknown;
    job?: unknown;
    more?: Zippable;
    without?: readonly string[];
  } = {},
  level: 0 | 9 = 0,
): Blob => {
  const job = jobOf();
  const paths = ['originals/0001.png', 'originals/0002.png'];
  const manifest = {
    what: 'Tiltloom job',
    format: BUNDLE_FORMAT,
    savedAt: '2026-03-01T10:00:00.000Z',
    originals: job.frames.map(({ id, name, byteLength }, i) => ({
      id,
      name,
      path: paths[i],
      bytes: byteLength,
    })),
  };
  const text = (value: unknown) =>
    strToU8(typeof value === 'string' ? value : JSON.stringify(value));
  const entries: Zippable = {
    'tiltloom.json': text(change.manifest ?? manifest),
    'job.json': text(change.job ?? job),
    [paths[0] as string]: noise(700, 1),
    [paths[1] as string]: noise(900, 2),
    ...change.more,
  };
  const kept = Object.entries(entries).filter(([path]) => change.without?.includes(path) !== true);
  return new Blob([zipSync(Object.fromEntries(kept), { level })]);
};

export const bytesOf = async (file: Blob): Promise<Uint8Array<ArrayBuffer>> =>
  new Uint8Array(await file.arrayBuffer());

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
export const forge = (entries: readonly Forged[]): Blob => {
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

/** 64 MB of zeros, deflated. */
export const bomb = new Uint8Array(
  deflateSync(new Uint8Array(64 * 2 ** 20), { level: 9, finishFlush: 4 }).subarray(2),
);
