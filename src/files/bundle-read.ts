/** Reads a job file, which may hold anything: checks all of it before it returns any of it. */
import * as v from 'valibot';
import type { Outcome } from '../contract/errors.ts';
import { stopped } from '../contract/errors.ts';
import { nameInText } from '../core/names/shown.ts';
import { documentFault } from '../job/schema/document-fault.ts';
import type { Job } from '../job/schema/job.ts';
import { restoreJob } from '../job/schema/migrate.ts';
import { pixelIdsOf, withHolesThatAre } from '../job/facts/pixels.ts';
import type { BundleLimits, Manifest, Original } from './bundle.ts';
import {
  BUNDLE_FORMAT,
  JOB_PATH,
  MANIFEST_PATH,
  bundleLimits,
  manifestSchema,
  refuse,
} from './bundle.ts';
import type { CarriedProfile } from './bundle-profile.ts';
import { carriedProfile } from './bundle-profile.ts';
import type { BundleEntry } from './bundle-directory.ts';
import { readDirectory } from './bundle-directory.ts';
import type { ReadCall } from './bundle-entry.ts';
import { StoppedReading, readEntry } from './bundle-entry.ts';

export interface OpenedBundle {
  readonly job: Job;
  readonly savedAt: string;
  /** In the order of the file. */
  readonly originals: readonly Original[];
  /** Left out: the job uses none, or it is not in the file. */
  readonly profile?: CarriedProfile;
}

interface OpenCall {
  readonly signal: AbortSignal;
  /** Bytes read so far and in all. */
  readonly report: (done: number, total: number) => void;
  /** For tests. */
  readonly limits?: BundleLimits;
}

const BRACKETS_AT_MOST = 60;

/** Finds deep nesting before the text is parsed. Skips strings. */
const nestsTooDeep = (text: string): boolean => {
  let depth = 0;
  for (let at = 0; at < text.length; at += 1) {
    const letter = text[at];
    if (letter === '"') {
      at += 1;
      while (at < text.length && text[at] !== '"') at += text[at] === '\\' ? 2 : 1;
    } else if (letter === '{' || letter === '[') {
      depth += 1;
      if (depth > BRACKETS_AT_MOST) return true;
    } else if (letter === '}' || letter === ']') depth -= 1;
  }
  return false;
};

const readJson = async (content: Blob, path: string, name: string): Promise<unknown> => {
  let document: unknown;
  try {
    const text = new TextDecoder('utf-8', { fatal: true }).decode(await content.arrayBuffer());
    if (nestsTooDeep(text)) throw new Error('nested too deep');
    document = JSON.parse(text);
  } catch {
    throw refuse(name, `“${path}” in it is not readable as JSON.`);
  }
  const fault = documentFault(document);
  if (fault !== undefined) throw refuse(name, `“${path}” in it is no plain document. ${fault}`);
  return document;
};

const checkManifest = (document: unknown, name: string): Manifest => {
  const checked = v.safeParse(manifestSchema, document);
  if (!checked.success) {
    const issue = checked.issues[0];
    const at = v.getDotPath(issue);
    throw refuse(
      name,
      `“${MANIFEST_PATH}” in it does not list a job’s contents as it should (${at === null ? '' : `${at}: `}${issue.message}).`,
    );
  }
  const { format } = checked.output;
  if (format > BUNDLE_FORMAT)
    throw refuse(
      name,
      `It was saved by a newer studio (file format ${format}, this one reads up to ${BUNDLE_FORMAT}). Reload the page to get the newest studio, or save it there for this one.`,
      'unsupported-variant',
    );
  if (format < 1) throw refuse(name, `Its file format is ${format}, which there never was.`);
  return checked.output;
};

/** List and contents must name the same files, each once, with the same lengths. */
const matchOriginals = (
  { originals }: Manifest,
  entries: ReadonlyMap<string, BundleEntry>,
  name: string,
): void => {
  const ids = new Set(originals.map(({ id }) => id));
  const paths = new Set(originals.map(({ path }) => path));
  if (ids.size !== originals.length || paths.size !== originals.length)
    throw refuse(name, 'It lists the same picture twice.');
  for (const path of entries.keys())
    if (path !== MANIFEST_PATH && path !== JOB_PATH && !paths.has(path))
      throw refuse(name, `It holds “${path}”, which its list does not name.`);
  for (const { path, bytes, name: picture } of originals) {
    const entry = entries.get(path);
    if (entry === undefined)
      throw refuse(name, `The picture ${picture} (“${path}”) is missing from it.`);
    if (entry.bytes !== bytes)
      throw refuse(
        name,
        `The picture ${picture} is ${entry.bytes} bytes long, and ${bytes} by the list.`,
      );
  }
};

/**
 * Every picture that the job names must be in the file, except pictures of filled places.
 * @returns the job without the filled places that are not in the file
 */
const checkFrames = (asItStands: Job, { originals }: Manifest, name: string): Job => {
  const listed = new Set(originals.map(({ id }) => id));
  const job = withHolesThatAre(asItStands, (id) => listed.has(id));
  const seen = new Set<string>();
  for (const frame of job.frames) {
    if (seen.has(frame.id))
      throw refuse(name, `The job has the frame ${nameInText(frame.name)} twice.`);
    seen.add(frame.id);
    if (!listed.has(frame.id))
      throw refuse(name, `The frame ${nameInText(frame.name)} of the job is missing from it.`);
  }
  if (!pixelIdsOf(job).every((id) => listed.has(id)))
    throw refuse(name, 'A picture that the job speaks of is missing from it.');
  return job;
};

const read = async (
  file: Blob,
  name: string,
  { signal, report, limits = bundleLimits }: OpenCall,
): Promise<OpenedBundle> => {
  const entries = await readDirectory(file, name, limits);
  const total = [...entries.values()].reduce((sum, { packedBytes }) => sum + packedBytes, 0);
  let done = 0;
  const call: ReadCall = {
    signal,
    read: (bytes) => {
      done += bytes;
      report(done, total);
    },
  };
  const jsonAt = async (path: string): Promise<unknown> => {
    const entry = entries.get(path);
    if (entry === undefined)
      throw refuse(name, `It is a zip, but no job file: “${path}” is missing.`, 'not-a-picture');
    return readJson(await readEntry(file, entry, name, call), path, name);
  };
  const manifest = checkManifest(await jsonAt(MANIFEST_PATH), name);
  const restored = restoreJob(await jsonAt(JOB_PATH));
  if (!restored.ok) throw refuse(name, `The job in it cannot be read. ${restored.reason}`);
  matchOriginals(manifest, entries, name);
  const job = checkFrames(restored.job, manifest, name);
  const originals: Original[] = [];
  for (const { id, path, name: picture } of manifest.originals) {
    const content = await readEntry(file, entries.get(path) as BundleEntry, name, call);
    originals.push({ id, name: picture, file: content });
  }
  const profile = carriedProfile(manifest, job);
  return { job, savedAt: manifest.savedAt, originals, ...(profile && { profile }) };
};

/**
 * @param name the file's name, for messages
 * @throws StudioError with the reason, for the person
 */
export const readBundle = async (
  file: Blob,
  name: string,
  call: OpenCall,
): Promise<Outcome<OpenedBundle>> => {
  try {
    return { done: true, value: await read(file, name, call) };
  } catch (error) {
    if (error instanceof StoppedReading) return stopped;
    throw error;
  }
};
