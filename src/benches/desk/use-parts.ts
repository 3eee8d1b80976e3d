/** Which part of a long bench is shown: one at a time, remembered, or all of them. */
import { useStudio, useView } from '../studio.ts';

export const ALL_PARTS = 'all';

/** Until another is chosen. */
const firstParts: Readonly<Record<string, string>> = {
  plan: 'which',
  shoot: 'rig',
  calibrate: 'strip',
  frames: 'frames',
  weave: 'sheet',
  mount: 'steps',
  mend: 'print',
};

/** @returns the part that is shown, '' where a bench has none; and what chooses another */
export const usePartShown = (bench: string) => {
  const { view } = useStudio();
  const part = useView((state) => state.partsShown[bench]);
  const choose = (next: string): void => {
    const { partsShown, set } = view.getState();
    set({ partsShown: { ...partsShown, [bench]: next } });
  };
  return [part ?? firstParts[bench] ?? '', choose] as const;
};

/** Whether the bench shows what it begins with: a finding may be told there instead of beside it. */
export const useFirstPartShown = (bench: string): boolean => {
  const [shown] = usePartShown(bench);
  return shown === ALL_PARTS || shown === (firstParts[bench] ?? '');
};
