/** Reads a journal beyond its newest state: the undo steps, and the pictures they need. */
import type { Job } from '../job/schema/job.ts';
import { restoreJob } from '../job/schema/migrate.ts';
import { pixelIdsOf, textsIn } from '../job/facts/pixels.ts';
import type { Journal, JournalEntry } from './journal.ts';
import { allLastWords } from './last-words.ts';

/** A state before the newest, and the change that followed it. */
export interface PastState {
  readonly label: string;
  /** Where it was made; left out where every bench shows it. */
  readonly bench?: string | undefined;
  readonly before: Job;
  /** When that change was made, in milliseconds since 1970. */
  readonly at: number;
}

/** The states before that of number `upTo`, oldest first. Those that cannot be read are skipped. */
export const pastOf = async (journal: Journal, id: string, upTo: number): Promise<PastState[]> => {
  const states: { entry: JournalEntry; job: Job; text: string }[] = [];
  for (const seq of (await journal.numbers(id)).reverse()) {
    const entry = seq > upTo ? undefined : await journal.entry(id, seq);
    const restored = restoreJob(entry?.job);
    if (entry === undefined || !restored.ok) continue;
    const text = JSON.stringify(restored.job);
    // Undo removed this step, so it is not offered again.
    const led = entry.undone === true ? states.map((one) => one.text).lastIndexOf(text) : -1;
    if (led >= 0) states.splice(led + 1);
    else states.push({ entry, job: restored.job, text });
  }
  return states.slice(0, -1).flatMap(({ job }, index) => {
    const next = states[index + 1]?.entry;
    return next === undefined
      ? []
      : [{ label: next.label, bench: next.bench, before: job, at: next.at }];
  });
};

/** Ids of every picture that some state of the job names. */
export const pixelIdsIn = async (journal: Journal, id: string): Promise<Set<string>> => {
  const ids = new Set<string>();
  for (const seq of await journal.numbers(id)) {
    const stored = (await journal.entry(id, seq))?.job;
    const restored = restoreJob(stored);
    for (const one of restored.ok ? pixelIdsOf(restored.job) : textsIn(stored)) ids.add(one);
  }
  return ids;
};

/** The same for all jobs, the bin, what was set aside and last words. */
export const allPixelIds = async (journal: Journal): Promise<Set<string>> => {
  const ids = new Set([...(await journal.asides()), ...allLastWords()].flatMap(textsIn));
  for (const id of await journal.jobIds())
    for (const one of await pixelIdsIn(journal, id)) ids.add(one);
  return ids;
};
