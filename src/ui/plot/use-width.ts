import type { RefObject } from 'react';
import { useEffect, useRef, useState } from 'react';

/**
 * The width that a drawing has, CSS pixels: drawings are laid out for it, so that their letters keep
 * their size on a narrow screen. `first`: until it has been measured.
 */
export const useWidth = <T extends Element>(
  first: number,
): readonly [RefObject<T | null>, number] => {
  const box = useRef<T>(null);
  const [width, setWidth] = useState(first);
  useEffect(() => {
    // A page that is not laid out (a test's) has no sizes to watch.
    if (box.current === null || typeof ResizeObserver === 'undefined') return;
    const observer = new ResizeObserver(([entry]) => {
      const measured = Math.floor(entry?.contentRect.width ?? 0);
      if (measured > 0) setWidth(measured);
    });
    observer.observe(box.current);
    return () => observer.disconnect();
  }, []);
  return [box, width];
};
