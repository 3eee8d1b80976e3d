/** Whether the person is being asked for their own lens and printer (FirstAsk.tsx). */
import { useDocument, useView } from '../studio.ts';
import { toBeAsked } from '../../job/edits/guessed.ts';

/** The change of the view that asks. */
export const asking = { asking: true, askFolded: false } as const;
/** And the one that puts it off. */
export const notAsking = { asking: false, askFolded: true } as const;

/** Beside the picture there is room for it; on a phone it waits until it is called for. */
export const hasRoomToAsk = (): boolean => matchMedia('(width >= 48rem)').matches;

export const useIsAsking = (): boolean => {
  const isOpen = useDocument(({ ready, job }) => ready && toBeAsked(job).length > 0);
  const called = useView((view) => view.asking);
  const folded = useView((view) => view.askFolded);
  return isOpen && (called || (!folded && hasRoomToAsk()));
};
