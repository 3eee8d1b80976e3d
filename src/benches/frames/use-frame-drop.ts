/** A place that takes a frame dragged from the list. */
import type { DragEvent } from 'react';
import { useState } from 'react';

/** Marks a frame on its way from the list to another place in it, or to a view slot. */
export const FRAME_DRAG_TYPE = 'application/x-tiltloom-frame';

const bringsFrame = ({ dataTransfer }: DragEvent): boolean =>
  dataTransfer.types.includes(FRAME_DRAG_TYPE);

/** `over` while a frame is over it; the handlers go onto the place. */
export const useFrameDrop = (onFrame: (id: string) => void) => {
  const [over, setOver] = useState(false);
  const onOver = (event: DragEvent) => {
    if (!bringsFrame(event)) return;
    event.preventDefault();
    event.dataTransfer.dropEffect = 'copy';
    setOver(true);
  };
  return {
    over,
    handlers: {
      onDragEnter: onOver,
      onDragOver: onOver,
      onDragLeave: ({ currentTarget, relatedTarget }: DragEvent) => {
        if (!currentTarget.contains(relatedTarget as Node | null)) setOver(false);
      },
      onDrop: (event: DragEvent) => {
        if (!bringsFrame(event)) return;
        event.preventDefault();
        setOver(false);
        onFrame(event.dataTransfer.getData(FRAME_DRAG_TYPE));
      },
    },
  };
};
