import { useEffect } from 'react';
import { isBundleName } from '../../../studio/keep/browser.ts';
import { useNoStrayDrops } from '../../../ui/index.ts';
import { useSaveAndOpen } from './use-save-and-open.ts';

/** While it is dragged a file shows its type at most, and some systems have none for a zip. */
const mayBeJobFile = (transfer: DataTransfer | null): boolean => {
  const files = [...(transfer?.items ?? [])].filter(({ kind }) => kind === 'file');
  return files.length === 1 && /^$|zip/.test(files[0]?.type ?? '');
};

/** What lies under the pointer hears that the drag has left it, and takes its invitation back. */
const leave = ({ target, dataTransfer }: DragEvent): void => {
  target?.dispatchEvent(
    new DragEvent('dragleave', { bubbles: true, cancelable: true, dataTransfer }),
  );
};

/**
 * A job file can be let go anywhere on the page. It is taken before the benches see it; every other
 * file is theirs, and one that no bench takes must not make the browser leave the page for it.
 */
export const useJobDrop = (): void => {
  const { open } = useSaveAndOpen();
  useNoStrayDrops();
  useEffect(() => {
    const allow = (event: DragEvent) => {
      if (event.dataTransfer === null || !mayBeJobFile(event.dataTransfer)) return;
      event.preventDefault();
      event.dataTransfer.dropEffect = 'copy';
    };
    const onDrop = (event: DragEvent) => {
      const [file, ...others] = event.dataTransfer?.files ?? [];
      if (file === undefined || others.length > 0 || !isBundleName(file.name)) return;
      event.preventDefault();
      event.stopPropagation();
      leave(event);
      void open(file);
    };
    addEventListener('dragover', allow, { capture: true });
    addEventListener('drop', onDrop, { capture: true });
    return () => {
      removeEventListener('dragover', allow, { capture: true });
      removeEventListener('drop', onDrop, { capture: true });
    };
  }, [open]);
};
