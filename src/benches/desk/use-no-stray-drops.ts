import { useEffect } from 'react';

export const holdsFiles = (transfer: DataTransfer | null): boolean =>
  transfer?.types.includes('Files') ?? false;

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
