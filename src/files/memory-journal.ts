/** The journal without a database: it lasts as long as the page. */
import type { Journal, JournalEntry, KeptJobEntry } from './journal.ts';

export const createMemoryJournal = (): Journal => {
  const entries = new Map<string, JournalEntry[]>();
  const listings = new Map<string, KeptJobEntry>();
  const aside: unknown[] = [];
  const of = (id: string) => entries.get(id) ?? [];
  return {
    numbers: async (id) =>
      of(id)
        .map(({ seq }) => seq)
        .reverse(),
    entry: async (id, seq) => of(id).find((one) => one.seq === seq),
    jobIds: async () => [...entries.keys()],
    listings: async () => [...listings.values()],
    append: async (id, make) => {
      const { entry, listing, trimTo } = make(of(id).at(-1)?.seq ?? 0);
      entries.set(id, [...of(id).filter(({ seq }) => seq > trimTo), entry]);
      listings.set(id, listing);
    },
    trim: async (id, to) =>
      void entries.set(
        id,
        of(id).filter(({ seq }) => seq > to),
      ),
    list: async (id, change) => {
      const next = change(listings.get(id));
      if (next !== undefined) listings.set(id, next);
    },
    setAside: async (document) => void aside.push(document),
    asides: async () => aside,
    end: async (id, may) => {
      const listing = listings.get(id);
      if (listing !== undefined && !may(listing)) return false;
      listings.delete(id);
      entries.delete(id);
      return true;
    },
    close: () => undefined,
  };
};
