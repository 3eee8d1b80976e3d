/** Job files made for tests: one that is right, and ways to make it wrong. */
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
