import type { RefObject, UIEvent } from 'react';
import { useLayoutEffect, useState } from 'react';

export interface Room {
  /** Inside the list, without its scroll bar. */
  readonly width: number;
  readonly height: number;
  /** How far it is scrolled, in whole steps. */
  readonly top: number;
}

/**
 * The room of a list that scrolls.
 * @param stepPx so far it may be scrolled before it is told
 */
export const useRoom = (list: RefObject<HTMLElement | null>, stepPx: number) => {
  const [room, setRoom] = useState<Room>({ width: 0, height: 0, top: 0 });
  useLayoutEffect(() => {
    const element = list.current;
    if (element === null) return;
    const look = () => {
      const { clientWidth: width, clientHeight: height } = element;
      setRoom((before) =>
        before.width === width && before.height === height ? before : { ...before, width, height },
      );
    };
    look();
    // jsdom has no ResizeObserver, and lays nothing out.
    if (typeof ResizeObserver === 'undefined') return;
    const watch = new ResizeObserver(look);
    watch.observe(element);
    return () => watch.disconnect();
    // With its width known it gets its height: looked at again before anything is painted.
  }, [list, room.width]);
  const onScroll = ({ currentTarget: { scrollTop } }: UIEvent) => {
    const top = Math.floor(scrollTop / stepPx) * stepPx;
    setRoom((before) => (before.top === top ? before : { ...before, top }));
  };
  return { room, onScroll };
};

/** Pixels of a rem. */
export const remPx = (): number =>
  parseFloat(getComputedStyle(document.documentElement).fontSize) || 16;
