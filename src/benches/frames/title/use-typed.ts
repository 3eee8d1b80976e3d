/** What is being typed: shown at once, drawn and kept a moment later. */
import { useRef, useState } from 'react';
import { titleFrameOf } from '../../../job/facts/sheet.ts';
import type { Job } from '../../../job/schema/job.ts';
import type { TypedWish } from '../../../studio/frames/typed/draw.ts';
import { firstWish, typeTitle } from '../../../studio/frames/typed/type-title.ts';
import { useStudio } from '../../studio.ts';

/** `fault`: why it could not be drawn or kept. */
export const useTyped = (job: Job) => {
  const studio = useStudio();
  const frame = titleFrameOf(job);
  const kept = frame?.typed;
  /** Not kept yet, and the title that it is to replace. */
  const [draft, setDraft] = useState<{ readonly of: string; readonly wish: TypedWish }>();
  const [fault, setFault] = useState<string>();
  const halt = useRef(new AbortController());
  const id = frame?.id ?? '';
  // Undo, or another title, takes the place of what was not kept.
  const pending = draft?.of === id ? draft.wish : undefined;
  const wish: TypedWish = pending ?? kept ?? firstWish(job);
  const set = (change: Partial<TypedWish>): void => {
    const next = { ...wish, ...change };
    setDraft({ of: id, wish: next });
    halt.current.abort();
    if (next.text.trim() === '') return setFault(undefined);
    const own = new AbortController();
    halt.current = own;
    void typeTitle(studio, next, own.signal).then((refused) => {
      if (own.signal.aborted) return;
      setDraft(undefined);
      setFault(refused);
    });
  };
  return { frame: kept === undefined ? undefined : frame, wish, set, fault };
};
