import type { KeyboardEvent } from 'react';
import { useState } from 'react';

/** Text that differs from the value: being typed, or refused. */
interface Draft {
  readonly text: string;
  readonly error?: string | undefined;
}

/**
 * What is typed into a field until Enter, or leaving it, commits it; Escape drops it.
 * @param value as shown. Once another takes its place (undo, a remedy, the unit switch) a draft is out of date.
 * @param take returns a sentence to refuse the text: it then stays, and the sentence beneath it.
 * @param of what stands behind the value, where two that look alike may differ.
 */
export const useDraft = (value: string, take: (text: string) => string | undefined, of = value) => {
  const [draft, setDraft] = useState<Draft>();
  const [settled, setSettled] = useState({ value, of });
  if (settled.value !== value || settled.of !== of) {
    setSettled({ value, of });
    setDraft(undefined);
  }
  /** The text, if it is refused; without an error there is nothing left to say. */
  const settle = (text: string, error: string | undefined) =>
    setDraft(error === undefined ? undefined : { text, error });
  const commit = () => {
    if (draft === undefined) return;
    const text = draft.text.trim();
    // Typed back to what it was: nothing to change, and nothing to undo.
    settle(draft.text, text === value ? undefined : take(text));
  };
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.key === 'Enter') commit();
    else if (event.key === 'Escape') setDraft(undefined);
    else return;
    event.preventDefault();
  };
  return {
    draft,
    settle,
    field: {
      text: draft?.text ?? value,
      isDraft: draft !== undefined,
      error: draft?.error,
      onText: (text: string) => setDraft({ text }),
      onLeave: commit,
      onKeyDown,
    },
  };
};
