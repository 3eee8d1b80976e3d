/** Broken jobs, job files and zips of frames: how reading each of them ended. */
import { zipSync } from 'fflate';
import { StudioError } from '../../../src/contract/errors.ts';
import { readBundle } from '../../../src/files/bundle-read.ts';
import { writeBundle } from '../../../src/files/bundle-write.ts';
import { memorySink } from '../../../src/files/sinks.ts';
import { picturesInZip } from '../../../src/files/zip-in.ts';
import { newJob } from '../../../src/job/schema/job.ts';
import type { Job } from '../../../src/job/schema/job.ts';
import { restoreJob } from '../../../src/job/schema/migrate.ts';
import { mutate } from './mutate.ts';
import type { Random } from './random.ts';
import { randomOf } from './random.ts';

interface Answer {
  readonly row: string;
  readonly answer: {
    readonly outcome: string;
    readonly said: string;
    readonly ms: number;
    readonly largest: number;
  };
}

const signal = new AbortController().signal;

const fullJob = (): Job => ({
  ...newJob(),
  name: 'Glasshouse at dusk',
  frames: ['a1b2c3d4e5f600112233', 'ffeeddccbbaa99887766'].map((id, i) => ({
    id,
    name: `view_${i}.png`,
    byteLength: 700,
    widthPx: 24,
    heightPx: 16,
    kind: 'PNG, 8 bit',
    sceneLinear: false,
    meanLight: 0.4,
  })),
  slotsByHand: ['a1b2c3d4e5f600112233', ''],
  recipe: { kind: 'flip', pictures: ['', ''], guardSlots: 0, guard: 'mean' },
  depthMarks: [{ name: 'fern', zMm: -3 }],
});

/** What turns up where something else is expected. */
const strangers: readonly unknown[] = [
  ...[undefined, null, true, '', 'NaN', '1e999', [], {}, [[]], -0, -1, 0.5, 1e308, -1e308],
  ...[NaN, Infinity, -Infinity, 2 ** 53, 'x'.repeat(300), '\u0000', '<b>', '__proto__', () => 1],
  ...[new Date(0), new Map(), Symbol('x'), 10n, JSON.parse('{"__proto__":{"ready":1}}') as unknown],
];

const placesIn = (value: unknown, path: readonly string[] = []): string[][] =>
  typeof value !== 'object' || value === null
    ? [[...path]]
    : [
        [...path],
        ...Object.entries(value).flatMap(([key, inner]) => placesIn(inner, [...path, key])),
      ];

/** A job with one to three of its values replaced, renamed, left out or led back to the whole. */
export const brokenJob = (random: Random): unknown => {
  const job: Record<string, unknown> = structuredClone(fullJob());
  for (let n = 1 + random.below(3); n > 0; n -= 1) {
    const path = random.pick(placesIn(job).filter(({ length }) => length > 0));
    const key = path.pop() ?? '';
    let owner: Record<string, unknown> = job;
    for (const step of path) owner = owner[step] as Record<string, unknown>;
    const way = random.below(5);
    if (way === 0) Reflect.deleteProperty(owner, key);
    else if (way === 1) owner[`${key}2`] = random.pick(strangers);
    else if (way === 2) owner[key] = random.below(4) === 0 ? job : random.pick(strangers);
    else if (way === 3) owner[key] = [owner[key], random.pick(strangers)];
    else owner[key] = random.pick(strangers);
    // From here on a cycle would have no end of places.
    if (owner[key] === job) break;
  }
  return job;
};

const timed = async (row: string, work: () => Promise<string> | string): Promise<Answer> => {
  const began = performance.now();
  let [outcome, said] = ['', ''];
  try {
    outcome = await work();
  } catch (error) {
    const named = error instanceof StudioError && error.code !== 'internal';
    [outcome, said] = [named ? error.code : 'unnamed', String(error)];
  }
  return { row, answer: { outcome, said, ms: performance.now() - began, largest: 0 } };
};

/** A restored job must be one that can be kept: plain JSON that is restored as itself. */
const restore = (document: unknown): string => {
  const restored = restoreJob(document);
  if (!restored.ok) return restored.reason === '' ? 'unnamed' : 'damaged';
  const again = restoreJob(JSON.parse(JSON.stringify(restored.job)));
  if (!again.ok || ({} as { ready?: unknown }).ready !== undefined) return 'not whole';
  return 'image';
};

const bundleOf = async (job: Job): Promise<Uint8Array> => {
  const sink = memorySink('application/zip');
  const originals = job.frames.map(({ id, name }) => ({ id, name, file: new Blob([id]) }));
  await writeBundle(sink, job, originals, new Date(0), { signal, report: () => undefined });
  return new Uint8Array(await (await sink.file()).arrayBuffer());
};

const open = async (file: Blob): Promise<string> => {
  const outcome = await readBundle(file, 'x.tiltloom.zip', { signal, report: () => undefined });
  if (!outcome.done) return 'unnamed';
  for (const { id, file: original } of outcome.value.originals)
    if ((await original.text()) !== id) return 'not whole';
  return 'image';
};

const unzip = async (file: Blob): Promise<string> => {
  const { pictures, faults } = await picturesInZip(file, (path) => path.endsWith('.png'));
  if (faults.some(({ reason }) => reason === '')) return 'unnamed';
  return faults.length > 0 || pictures.length === 0 ? 'damaged' : 'image';
};

/** Seeded; `count` of each kind. */
export const fuzzDocuments = async (seed: number, count: number): Promise<Answer[]> => {
  const random = randomOf(seed);
  const answers: Answer[] = [];
  const bundle = await bundleOf(fullJob());
  const zip = zipSync({ 'a.png': bundle, 'b/c.png': bundle.slice(0, 900), 'notes.txt': bundle });
  for (let n = 0; n < count; n += 1) {
    answers.push(
      await timed('Job documents', () => restore(brokenJob(random))),
      await timed('Job files', () => open(new Blob([mutate(bundle, random, zip)]))),
    );
    if (n % 4 === 0)
      answers.push(
        await timed('Zips of frames', () => unzip(new Blob([mutate(zip, random, bundle)]))),
      );
  }
  return answers;
};
