/** What a label means, for whoever asks: a small question mark beside it, or F1 in its field. */
import type { KeyboardEvent, ToggleEvent } from 'react';
import { createContext, use, useId, useRef, useState } from 'react';
import styles from './Meaning.module.css';

/** The sentence for a label; undefined where there is none. */
type MeaningOf = (label: string) => string | undefined;

/** Given by the page: the controls themselves know no craft. */
export const Meanings = createContext<MeaningOf>(() => undefined);

/** Room that the answer keeps from the window's edges, and what it needs below its mark, px. */
const EDGE = 8;
const ROOM_BELOW = 190;

/** Under its mark, or over it near the window's foot; wholly in the window. */
const place = (answer: HTMLElement, mark: HTMLElement): void => {
  const { left, top, bottom } = mark.getBoundingClientRect();
  const below = bottom + ROOM_BELOW < innerHeight;
  answer.style.setProperty('--at-left', `${Math.max(EDGE, left - EDGE)}px`);
  answer.style.top = below ? `${bottom + EDGE}px` : 'auto';
  answer.style.bottom = below ? 'auto' : `${innerHeight - top + EDGE}px`;
};

/**
 * The question mark of a label and its answer, both null where the page has none. The mark is no stop of the Tab
 * key, since fields follow each other in dozens: F1 asks from within the field.
 */
export const useMeaning = (label: string) => {
  const meaning = use(Meanings)(label);
  const id = useId();
  const mark = useRef<HTMLButtonElement>(null);
  const answer = useRef<HTMLDivElement>(null);
  const [open, setOpen] = useState(false);
  if (meaning === undefined) return { ask: null, onKeyDown: undefined };

  const onBeforeToggle = ({ newState }: ToggleEvent) => {
    if (newState === 'open' && answer.current !== null && mark.current !== null)
      place(answer.current, mark.current);
  };
  const onToggle = ({ newState }: ToggleEvent) => {
    setOpen(newState === 'open');
    // It would stay where it is while its label goes.
    const close = () => answer.current?.hidePopover();
    if (newState === 'open') addEventListener('scroll', close, { capture: true, once: true });
  };
  const onKeyDown = (event: KeyboardEvent): void => {
    // Escape takes back what was typed, too, and what a field has taken the browser does not act on.
    if (event.key === 'Escape') answer.current?.hidePopover();
    if (event.key !== 'F1') return;
    event.preventDefault();
    answer.current?.togglePopover();
  };
  const ask = (
    <>
      <button
        ref={mark}
        type="button"
        tabIndex={-1}
        className={styles['mark']}
        aria-label="What is this?"
        title={`What is “${label}”? F1 in the field asks too.`}
        popoverTarget={id}
      >
        ?
      </button>
      {/* Read aloud from here, since whoever listens stays in the field. */}
      <span className="unseen" aria-live="polite">
        {open && meaning}
      </span>
      <div
        ref={answer}
        id={id}
        popover="auto"
        aria-hidden="true"
        className={styles['answer']}
        onBeforeToggle={onBeforeToggle}
        onToggle={onToggle}
      >
        <b>{label}</b> {meaning}
      </div>
    </>
  );
  return { ask, onKeyDown };
};
