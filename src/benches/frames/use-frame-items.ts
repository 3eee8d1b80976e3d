import { useMemo, useState } from 'react';
import { saySlots } from '../../core/frames/slots.ts';
import { slotsByFrame } from '../../job/edits/frames.ts';
import { titleFrameOf } from '../../job/facts/sheet.ts';
import type { Frame, Job } from '../../job/schema/job.ts';

export interface FrameItem {
  readonly id: string;
  readonly frame: Frame;
  readonly number: number;
  /** "1–3, 6"; empty when no slot shows it; words where it lies over them. */
  readonly slots: string;
}

/** Items that have not changed stay the very same, and so do all of them together: of these the list makes nothing anew. */
const itemMaker = () => {
  const made = new WeakMap<Frame, FrameItem>();
  let last: readonly FrameItem[] = [];
  return (job: Job): readonly FrameItem[] => {
    const slotsOf = slotsByFrame(job);
    const title = titleFrameOf(job);
    const items = job.frames.map((frame, index) => {
      const number = index + 1;
      const slots = frame === title ? 'title over all' : saySlots(slotsOf.get(frame.id) ?? []);
      const before = made.get(frame);
      if (before?.number === number && before.slots === slots) return before;
      const item = { id: frame.id, frame, number, slots };
      made.set(frame, item);
      return item;
    });
    const same = items.length === last.length && items.every((item, index) => item === last[index]);
    return same ? last : (last = items);
  };
};

/** The frames as the list shows them. */
export const useFrameItems = (job: Job): readonly FrameItem[] => {
  const [itemsOf] = useState(itemMaker);
  return useMemo(() => itemsOf(job), [itemsOf, job]);
};
