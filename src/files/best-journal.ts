/**
 * The best journal that the browser offers: on the disk, else in memory. It is opened at its first use, and
 * again after the browser closed it.
 */
import { messageOf } from '../contract/errors.ts';
import { openDiskJournal } from './disk-journal.ts';
import type { Journal } from './journal.ts';
import { carryLastWordsOver } from './last-words.ts';
import { createMemoryJournal } from './memory-journal.ts';

export type Reach = () => Promise<Journal>;

export const createBestJournal = (now: () => number) => {
  let opened: Promise<Journal> | undefined;
  let whyMemoryOnly: string | undefined;
  let heldUp: (message: string) => void = () => undefined;
  let closed: () => void = () => undefined;

  const open = async (): Promise<Journal> => {
    try {
      const { journal, carriedOver } = await openDiskJournal({
        now,
        onHeldUp: (message) => heldUp(message),
        onClosed: () => {
          opened = undefined;
          closed();
        },
      });
      if (carriedOver !== undefined) carryLastWordsOver(carriedOver);
      return journal;
    } catch (error) {
      whyMemoryOnly = messageOf(error);
      return createMemoryJournal();
    }
  };
  const reach: Reach = () => (opened ??= open());

  return {
    reach,

    /** Why nothing outlives this page; undefined if jobs are on the disk. */
    whyMemoryOnly: async (): Promise<string | undefined> => {
      await reach();
      return whyMemoryOnly;
    },

    /** Called when an older or newer studio in another tab blocks the database. */
    onHeldUp: (tell: (message: string) => void): void => {
      heldUp = tell;
    },

    /** Told when the browser closed the database or somebody deleted it. What is asked next opens it again. */
    onClosed: (tell: () => void): void => {
      closed = tell;
    },

    /** For tests, where many pages live in one. */
    close: async (): Promise<void> => {
      const journal = await opened;
      opened = undefined;
      journal?.close();
    },
  };
};
