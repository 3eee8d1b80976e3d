/** Files dragged in from outside the page. */
import type { DragEvent as ReactDragEvent } from 'react';
import { useEffect, useState } from 'react';

const holdsFiles = (transfer: DataTransfer | null): boolean =>
  transfer?.types.includes('Files') ?? false;

/** A part inside that takes a file of its own kind is marked `data-own-drop`. */
const isOthers = ({ target, currentTarget }: ReactDragEvent): boolean => {
  const own = target instanceof Element ? target.closest('[data-own-drop]') : null;
  return own !== null && own !== currentTarget;
};

/**
 * `over` while files are dragged over the part that the handlers are on. It listens before its
 * children do, which may have drags of their own and know nothing of files.
 */
export const useFileDrop = (onDrop: (transfer: DataTransfer) => void) => {
  const [over, setOver] = useState(false);
  const handle = (act: (event: ReactDragEvent) => void) => (event: ReactDragEvent) => {
    if (!holdsFiles(event.dataTransfer)) return;
    if (isOthers(event)) return setOver(false);
    event.preventDefault();
    event.stopPropagation();
    act(event);
  };
  const onOver = handle(({ dataTransfer }) => {
    dataTransfer.dropEffect = 'copy';
    setOver(true);
  });
  return {
    over,
    handlers: {
      onDragEnterCapture: onOver,
      onDragOverCapture: onOver,
      onDragLeaveCapture: handle(({ currentTarget, relatedTarget }) => {
        if (!currentTarget.contains(relatedTarget as Node | null)) setOver(false);
      }),
      onDropCapture: handle(({ dataTransfer }) => {
        setOver(false);
        onDrop(dataTransfer);
      }),
    },
  };
};

/** A file dropped beside the place that takes it would make the browser leave the page for the file. */
export const useNoStrayDrops = (): void => {
  useEffect(() => {
    const refuse = (event: DragEvent) => {
      if (!holdsFiles(event.dataTransfer) || event.defaultPrevented) return;
      event.preventDefault();
      if (event.dataTransfer !== null) event.dataTransfer.dropEffect = 'none';
    };
    addEventListener('dragover', refuse);
    addEventListener('drop', refuse);
    return () => {
      removeEventListener('dragover', refuse);
      removeEventListener('drop', refuse);
    };
  }, []);
};
