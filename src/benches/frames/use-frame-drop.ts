/** A place that takes a frame dragged from the list. */
import type { RefObject } from 'react';
import { useDrop } from 'react-aria-components';

/** Marks a frame on its way from the list to another place in it, or to a view slot. */
export const FRAME_DRAG_TYPE = 'application/x-tiltloom-frame';

export const useFrameDrop = (
  ref: RefObject<HTMLDivElement | null>,
  onFrame: (id: string) => void,
) =>
  useDrop({
    ref,
    getDropOperation: (types) => (types.has(FRAME_DRAG_TYPE) ? 'copy' : 'cancel'),
    onDrop: ({ items }) => {
      const [item] = items;
      if (item?.kind === 'text') void item.getText(FRAME_DRAG_TYPE).then(onFrame);
    },
  });
