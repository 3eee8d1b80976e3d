import type { ReactNode } from 'react';
import { useEffect, useRef } from 'react';
import styles from './HeldFocus.module.css';

interface Props {
  /** The stage of what is going on: at a change of it, controls within come and go. */
  readonly stage: string;
  readonly children: ReactNode;
}

/**
 * Around a button that gives way to another, "Weave sheet" to "Stop": whoever had pressed it by key
 * would find the focus gone with it. This takes the focus over, and the next Tab goes on from here.
 */
export const HeldFocus = ({ stage, children }: Props) => {
  const place = useRef<HTMLDivElement>(null);
  const before = useRef(stage);
  useEffect(() => {
    if (before.current === stage) return;
    before.current = stage;
    // The body has it only when what had it has gone; a focus elsewhere is the person's own.
    if (document.activeElement === document.body) place.current?.focus({ preventScroll: true });
  }, [stage]);
  return (
    <div ref={place} tabIndex={-1} className={styles['place']}>
      {children}
    </div>
  );
};
