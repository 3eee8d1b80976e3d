import { useEffect } from 'react';
import { useStudio } from '../studio.ts';
import { travel } from './use-undo.ts';

/** A field whose text is being edited has an undo of its own, which comes first. */
const hasOwnUndo = (target: EventTarget | null): boolean => {
  if (!(target instanceof HTMLElement)) return false;
  if (target.isContentEditable || target instanceof HTMLTextAreaElement) return true;
  return target instanceof HTMLInputElement && target.dataset['draft'] !== undefined;
};

/** Ctrl/Cmd+Z back; Ctrl/Cmd+Shift+Z and Ctrl+Y forth again. */
export const useUndoKeys = (): void => {
  const studio = useStudio();
  useEffect(() => {
    const onKey = (event: KeyboardEvent) => {
      if (!(event.ctrlKey || event.metaKey) || event.altKey || hasOwnUndo(event.target)) return;
      const key = event.key.toLowerCase();
      if (key === 'z' && !event.shiftKey) travel(studio, 'undo');
      else if ((key === 'z' && event.shiftKey) || (key === 'y' && event.ctrlKey))
        travel(studio, 'redo');
      else return;
      event.preventDefault();
    };
    addEventListener('keydown', onKey);
    return () => removeEventListener('keydown', onKey);
  }, [studio]);
};
