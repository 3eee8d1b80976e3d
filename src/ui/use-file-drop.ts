/** Files dragged in from outside the page. */
import type { DragEvent as ReactDragEvent } from 'react';
import { useCallback, useEffect, useRef, useState } from 'react';

const holdsFiles = (transfer: DataTransfer | null): boolean =>
  transfer?.types.includes('Files') ?? false;

/** A part inside that takes a file of its own kind is marked `data-own-drop`. */
const isOthers = ({ target, currentTarget }: ReactDragEvent): boolean => {
  const own = target instanceof Element ? target.closest('[data-own-drop]') : null;
  return own !== null && own !== currentTarget;
};

/**
 * A drop goes to what lay under the pointer last. If that has left the page meanwhile, no part around it hears
 * the drop, and the browser would open the files in tabs: so it is listened for on the very element.
 */
const useDropOnceGone = (onDrop: (transfer: DataTransfer) => void) => {
  const latest = useRef(onDrop);
  useEffect(() => {
    latest.current = onDrop;
  }, [onDrop]);
  const onGone = useCallback((event: Event) => {
    const { target, dataTransfer } = event as DragEvent;
    if (dataTransfer === null || !(target instanceof Node) || target.isConnected) return;
    event.preventDefault();
    latest.current(dataTransfer);
  }, []);
  // The same listener twice on one element counts once.
  return ({ target }: ReactDragEvent) => target.addEventListener('drop', onGone);
};

/**
 * `over` while files are dragged over the part that the handlers are on. It listens before its
 * children do, which may have drags of their own and know nothing of files.
 */
export const useFileDrop = (onDrop: (transfer: DataTransfer) => void) => {
  const [over, setOver] = useState(false);
  const drop = (transfer: DataTransfer) => {
    setOver(false);
    onDrop(transfer);
  };
  const hearOnceGone = useDropOnceGone(drop);
  const handle = (act: (event: ReactDragEvent) => void) => (event: ReactDragEvent) => {
    if (!holdsFiles(event.dataTransfer)) return;
    if (isOthers(event)) return setOver(false);
    event.preventDefault();
    event.stopPropagation();
    act(event);
  };
  const onOver = handle((event) => {
    event.dataTransfer.dropEffect = 'copy';
    hearOnceGone(event);
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
      onDropCapture: handle(({ dataTransfer }) => drop(dataTransfer)),
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
