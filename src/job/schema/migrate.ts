/** Restores a job from a stored document of any version. */
import * as v from 'valibot';
import { documentFault } from './document-fault.ts';
import type { Job } from './job.ts';
import { jobSchema } from './job.ts';

type Document = Readonly<Record<string, unknown>>;

const isDocument = (value: unknown): value is Document =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/**
 * Version 1 had the printer's dots across and along the ribs, and wrote files that went in with their top edge first.
 * Both numbers stay: where a turned page would put the finer grid across the ribs, the top edge is kept first.
 */
const byThePrintersAxes = (document: Document): Document => {
  const { printer, ribs } = document;
  if (!isDocument(printer)) return { ...document, version: 2 };
  const { acrossDpi, alongDpi, ...rest } = printer;
  const [carriageDpi, feedDpi] = ribs === 'lying' ? [alongDpi, acrossDpi] : [acrossDpi, alongDpi];
  const wouldTurn = Number(alongDpi) > Number(acrossDpi);
  return {
    ...document,
    version: 2,
    printer: { ...rest, carriageDpi, feedDpi, ...(wouldTurn ? { fedFirst: 'top' } : {}) },
  };
};

/** Each entry converts a document from the version that is its key to the next one. */
const steps: Readonly<Record<number, (document: Document) => Document>> = { 1: byThePrintersAxes };
const newest = 2;

export type Restored =
  { readonly ok: true; readonly job: Job } | { readonly ok: false; readonly reason: string };

/** Never throws: a document that cannot be read gives the reason as a sentence. */
export const restoreJob = (stored: unknown): Restored => {
  if (!isDocument(stored)) return { ok: false, reason: 'It does not hold a job.' };
  const fault = documentFault(stored);
  if (fault !== undefined) return { ok: false, reason: fault };
  let document = stored;
  while (document['version'] !== newest) {
    const version = document['version'];
    if (typeof version === 'number' && version > newest)
      return {
        ok: false,
        reason: `It was kept by a newer studio (job version ${version}, this one reads up to ${newest}).`,
      };
    const step = typeof version === 'number' ? steps[version] : undefined;
    if (step === undefined) return { ok: false, reason: 'It does not say which version it is of.' };
    document = step(document);
  }
  const checked = v.safeParse(jobSchema, document);
  if (checked.success) return { ok: true, job: checked.output };
  const issue = checked.issues[0];
  const place = v.getDotPath(issue);
  return { ok: false, reason: place === null ? issue.message : `${place}: ${issue.message}` };
};
