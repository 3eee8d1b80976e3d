import type { RefObject } from 'react';
import { useLayoutEffect, useRef } from 'react';

/** For a `<dialog>` that is a window over the page for as long as it is drawn. */
export const useModal = (): RefObject<HTMLDialogElement | null> => {
  const dialog = useRef<HTMLDialogElement>(null);
  // Before it leaves the page: a window closed after that gives the focus back to nobody.
  useLayoutEffect(() => {
    const element = dialog.current;
    element?.showModal();
    return () => element?.close();
  }, []);
  return dialog;
};
