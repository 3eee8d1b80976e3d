/** Moving a picture on the drawing of the print: one pointer shifts it, two zoom and turn it, and the wheel zooms. */
import type { PointerEvent, RefObject } from 'react';
import { useEffect, useEffectEvent, useState } from 'react';
import type { Point, Similarity } from '../../../core/numeric/similarity.ts';
import { throughTwo } from '../../../core/numeric/similarity-fit.ts';
import { about, shiftBy } from '../../../core/numeric/similarity.ts';

interface Held {
  readonly from: Point;
  readonly to: Point;
}

/** One step of a wheel, CSS pixels, zooms by about a tenth. */
const WHEEL_STEP_PX = 1000;

const movedBy = (held: ReadonlyMap<number, Held>): Similarity | undefined => {
  const [one, other] = [...held.values()];
  if (one === undefined) return undefined;
  if (other === undefined) return shiftBy(one.to.x - one.from.x, one.to.y - one.from.y);
  return throughTwo(one.from, one.to, other.from, other.to);
};

interface Gesture {
  readonly svg: RefObject<SVGSVGElement | null>;
  /** All pointers were let go: one change. */
  drop(by: Similarity): void;
  wheel(by: Similarity): void;
}

/** `by` is how far the picture is moved just now, in the drawing's own measure. */
export const usePlaceGesture = ({ svg, drop, wheel }: Gesture) => {
  const [held, setHeld] = useState<ReadonlyMap<number, Held>>(new Map());
  /** A finger that is lifted leaves what two have done; only what comes after counts from there. */
  const [done, setDone] = useState(false);
  const placeOf = (clientX: number, clientY: number): Point => {
    const matrix = svg.current?.getScreenCTM()?.inverse();
    const { x, y } = new DOMPoint(clientX, clientY).matrixTransform(matrix);
    return { x, y };
  };
  const by = done ? undefined : movedBy(held);
  const onWheel = useEffectEvent((event: WheelEvent) => {
    const box = svg.current?.parentElement;
    // Until it is chosen, the wheel scrolls the page.
    if (box === null || box === undefined || document.activeElement !== box) return;
    event.preventDefault();
    const still = placeOf(event.clientX, event.clientY);
    const lines = event.deltaMode === WheelEvent.DOM_DELTA_LINE ? 40 : 1;
    wheel(about(still, Math.exp((-event.deltaY * lines) / WHEEL_STEP_PX), 0));
  });
  useEffect(() => {
    const box = svg.current;
    const listen = (event: WheelEvent) => onWheel(event);
    // React listens passively, and could not keep the page from scrolling.
    box?.addEventListener('wheel', listen, { passive: false });
    return () => box?.removeEventListener('wheel', listen);
  }, [svg]);
  const end = (keep: boolean) => {
    if (keep && by !== undefined) drop(by);
    setHeld(new Map());
    setDone(true);
  };
  return {
    by,
    cancel: () => end(false),
    handlers: {
      onPointerDown: (event: PointerEvent) => {
        event.currentTarget.setPointerCapture(event.pointerId);
        const at = placeOf(event.clientX, event.clientY);
        const before = done ? new Map<number, Held>() : held;
        // A second finger begins where the first has come to.
        if (before.size >= 2) return;
        setDone(false);
        const [first] = before.values();
        const [right, down] =
          first === undefined ? [0, 0] : [first.to.x - first.from.x, first.to.y - first.from.y];
        const from = { x: at.x - right, y: at.y - down };
        setHeld(new Map([...before, [event.pointerId, { from, to: at }]]));
      },
      onPointerMove: (event: PointerEvent) => {
        const mine = held.get(event.pointerId);
        if (done || mine === undefined) return;
        const to = placeOf(event.clientX, event.clientY);
        setHeld(new Map([...held, [event.pointerId, { ...mine, to }]]));
      },
      onPointerUp: (event: PointerEvent) => {
        if (!done && held.has(event.pointerId)) end(true);
      },
      onPointerCancel: () => end(false),
    },
  };
};
