/** The lenses found for the job, looked at a few at a time: each takes a hundred traces the first time. */
import { useEffect, useMemo, useState } from 'react';
import { findLenses, lookAtLens } from '../../../core/plan/finder.ts';
import { finderWish } from '../../../job/facts/finder-wish.ts';
import { lensOffers } from '../../../materials/lens-offers.ts';
import { useJob, useShelves } from '../../studio.ts';

/** So long the page may be held up at once. */
const HOLD_MS = 12;

export const useFound = () => {
  const job = useJob();
  const shelves = useShelves((state) => state.shelves);
  const offers = useMemo(() => lensOffers(job, shelves), [job, shelves]);
  const wish = useMemo(() => finderWish(job), [job]);
  // What is traced anew; distances and depths only compute with it.
  const key = [wish.acrossDpi, wish.columns, ...offers.map(({ id }) => id)].join();
  const [looked, setLooked] = useState<string>();
  useEffect(() => {
    let gone = false;
    const look = async () => {
      let began = performance.now();
      for (const offer of offers) {
        lookAtLens(wish, offer);
        if (performance.now() - began < HOLD_MS) continue;
        await new Promise((resolve) => setTimeout(resolve));
        if (gone) return;
        began = performance.now();
      }
      setLooked(key);
    };
    if (looked !== key) void look();
    return () => {
      gone = true;
    };
  }, [key, looked, offers, wish]);
  const found = useMemo(
    () => (looked === key ? findLenses(wish, offers) : undefined),
    [looked, key, wish, offers],
  );
  return { wish, found };
};
