import type { ReactNode, RefObject } from 'react';
import { useEffect, useRef, useState } from 'react';
import styles from './ScrollBox.module.css';

/** Whether the box can be scrolled further down. */
const useMoreBelow = (box: RefObject<HTMLElement | null>): boolean => {
  const [more, setMore] = useState(false);
  useEffect(() => {
    const element = box.current;
    // jsdom has no ResizeObserver, and lays nothing out.
    if (element === null || typeof ResizeObserver === 'undefined') return;
    const look = () => {
      const rest = element.scrollHeight - element.clientHeight - element.scrollTop;
      setMore(rest > 8);
    };
    const watch = new ResizeObserver(look);
    // Its own size, and that of what is in it: an error grows the one, a window the other.
    for (const one of [element, ...element.children]) watch.observe(one);
    element.addEventListener('scroll', look, { passive: true });
    return () => {
      watch.disconnect();
      element.removeEventListener('scroll', look);
    };
  }, [box]);
  return more;
};

interface Props {
  readonly id?: string;
  /** Of the part that scrolls. */
  readonly className?: string | undefined;
  /** One element, however much is in it: its size is watched. */
  readonly children: ReactNode;
}

/** A part with a scroll of its own, which says so as long as there is more below: a thin bar is easily missed. */
export const ScrollBox = ({ id, className = '', children }: Props) => {
  const box = useRef<HTMLDivElement>(null);
  const more = useMoreBelow(box);
  return (
    <div id={id} className={styles['frame']}>
      <div ref={box} className={`${styles['box']} ${className}`}>
        <div>{children}</div>
      </div>
      {/* For the eye alone: whoever listens comes to what is below anyway. */}
      {more && (
        <p className={styles['more']} aria-hidden="true">
          <span>More below ↓</span>
        </p>
      )}
    </div>
  );
};
