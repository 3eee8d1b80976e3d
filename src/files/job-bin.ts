/** The bin, where deleted jobs stay until they are brought back or deleted for good. */
import type { Reach } from './best-journal.ts';
import type { InTurn } from './in-turn.ts';
import type { KeptJobEntry } from './journal.ts';
import { forgetLastWords } from './last-words.ts';

/** How long a deleted job can be brought back, unless its room is needed. */
const BIN_MS = 7 * 24 * 3600 * 1000;

export const createJobBin = (reach: Reach, inTurn: InTurn, now: () => number) => {
  const mark = async (id: string, deletedAt: number | undefined): Promise<void> =>
    (await reach()).list(id, (was) => {
      if (was === undefined) return undefined;
      const { deletedAt: _before, ...rest } = was;
      return deletedAt === undefined ? rest : { ...rest, deletedAt };
    });

  return {
    /** Moves a job to the bin. */
    deleteJob: (id: string): Promise<void> => mark(id, now()),
    bringBack: (id: string): Promise<void> => mark(id, undefined),

    /** Deletes for good what has been in the bin for a week. */
    emptyBin: (): Promise<void> =>
      inTurn(async () => {
        const isOld = ({ deletedAt }: KeptJobEntry) =>
          deletedAt !== undefined && now() - deletedAt >= BIN_MS;
        const journal = await reach();
        for (const listing of await journal.listings())
          // Another tab may have brought it back meanwhile.
          if (isOld(listing) && (await journal.end(listing.id, isOld))) forgetLastWords(listing.id);
      }),

    /**
     * Deletes a job for good, also on a full disk.
     * @returns false if another tab has brought it back from the bin
     */
    endJob: (id: string, fromBin: boolean): Promise<boolean> =>
      inTurn(async () => {
        const journal = await reach();
        const ended = await journal.end(id, (was) => !fromBin || was.deletedAt !== undefined);
        if (ended) forgetLastWords(id);
        return ended;
      }),
  };
};
