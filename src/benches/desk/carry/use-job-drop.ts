import { useEffect } from 'react';
import { isBundleName } from '../../../files/bundle.ts';
import { holdsFiles } from '../use-no-stray-drops.ts';

/** While it is dragged a file shows its type at most, and some systems have none for a zip. */
const mayBeJobFile = (transfer: DataTransfer | null): boolean => {
  const files = [...(transfer?.items ?? [])].filter(({ kind }) => kind === 'file');
  return files.length === 1 && /^$|zip/.test(files[0]?.type ?? '');
};

/** What lies under the pointer hears that the drag has left it, and puts its invitation away. */
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
  useEffect(() => {
    const allow = (event: DragEvent) => {
      if (event.dataTransfer === null || !mayBeJobFile(event.dataTransfer)) return;
      event.preventDefault();
      event.dataTransfer.dropEffect = 'copy';
    };
    const refuseStray = (event: DragEvent) => {
      if (event.dataTransfer === null || event.defaultPrevented) return;
      if (!holdsFiles(event.dataTransfer)) return;
      event.preventDefault();
      event.dataTransfer.dropEffect = 'none';
    };
    const onDrop = (event: DragEvent) => {
      const [file, ...others] = event.dataTransfer?.files ?? [];
      if (file === undefined || others.length > 0 || !isBundleName(file.name)) return;
      event.preventDefault();
      event.stopPropagation();
      leave(event);
      void import('../../../studio/keep/job-file/open.ts').then(({ openJobFile }) =>
        openJobFile(file),
      );
    };
    const onStrayDrop = (event: DragEvent) => {
      if (holdsFiles(event.dataTransfer)) event.preventDefault();
    };
    addEventListener('dragover', allow, { capture: true });
    addEventListener('dragover', refuseStray);
    addEventListener('drop', onDrop, { capture: true });
    addEventListener('drop', onStrayDrop);
    return () => {
      removeEventListener('dragover', allow, { capture: true });
      removeEventListener('dragover', refuseStray);
      removeEventListener('drop', onDrop, { capture: true });
      removeEventListener('drop', onStrayDrop);
    };
  }, []);
};
