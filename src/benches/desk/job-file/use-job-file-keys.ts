import { useEffect, useRef } from 'react';

/** What is typed in a field that was not left yet belongs to the job as the person sees it. */
const takeInTyped = (): void => {
  const field = document.activeElement;
  if (!(field instanceof HTMLInputElement || field instanceof HTMLTextAreaElement)) return;
  field.blur();
  field.focus();
};

interface Keys {
  save(anew: boolean): void;
  /** Asks which file to open. */
  choose(): void;
}

/** Ctrl/Cmd+S saves, with Shift as another file; Ctrl/Cmd+O opens. */
export const useJobFileKeys = (keys: Keys): void => {
  const latest = useRef(keys);
  useEffect(() => {
    latest.current = keys;
  }, [keys]);
  useEffect(() => {
    const onKey = (event: KeyboardEvent) => {
      if (!(event.ctrlKey || event.metaKey) || event.altKey) return;
      const key = event.key.toLowerCase();
      if (key === 's') {
        takeInTyped();
        latest.current.save(event.shiftKey);
      } else if (key === 'o' && !event.shiftKey) latest.current.choose();
      else return;
      event.preventDefault();
    };
    addEventListener('keydown', onKey);
    return () => removeEventListener('keydown', onKey);
  }, []);
};
