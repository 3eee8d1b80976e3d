/** Which part of a long bench is shown: one at a time, remembered, or all of them. */
import { useView } from '../studio.ts';

export const ALL_PARTS = 'all';

/** Until another is chosen. */
const firstParts: Readonly<Record<string, string>> = {
  plan: 'which',
  calibrate: 'strip',
  weave: 'sheet',
  mount: 'steps',
  mend: 'print',
};

/** @returns the part that is shown, '' where a bench has none; and what chooses another */
export const usePartShown = (bench: string) => {
  const parts = useView((view) => view.partsShown);
  const set = useView((view) => view.set);
  return [
    parts[bench] ?? firstParts[bench] ?? '',
    (part: string) => set({ partsShown: { ...parts, [bench]: part } }),
  ] as const;
};
