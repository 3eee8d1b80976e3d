/** The bin, where deleted jobs lie until they are brought back or ended, and how a job is ended. */
import type { Reach } from './best-journal.ts';
import type { InTurn } from './in-turn.ts';
import type { KeptJobEntry } from './journal.ts';
import { forgetLastWords } from './last-words.ts';

/** A deleted job can be brought back for so long, unless its room is asked for. */
const BIN_MS = 7 * 24 * 3600 * 1000;

export const createJobBin = (reach: Reach, inTurn: InTurn, now: () => number) => {
  const mark = async (id: string, deletedAt: number | undefined): Promise<void> =>
    (await reach()).list(id, (was) => {
      if (was === undefined) return undefined;
      const { deletedAt: _before, ...rest } = was;
      return deletedAt === undefined ? rest : { ...rest, deletedAt };
    });

  return {
    /** Into the bin, from where `bringBack` fetches it. */
    deleteJob: (id: string): Promise<void> => mark(id, now()),
    bringBack: (id: string): Promise<void> => mark(id, undefined),

    /** Ends what has lain in the bin for a week. */
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
     * Ends a job for good. It takes no room to do so.
     * @returns false when it was to be in the bin, and another tab has brought it back.
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
