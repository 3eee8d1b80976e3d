/** A grip on a drawing: dragged by pointer, moved by keys. Escape drops a drag; so does a lost pointer. */
import type { KeyboardEvent, PointerEvent, RefObject } from 'react';
import { useState } from 'react';

/** Where the pointer is on the grip's drawing, and how far from where it was pressed. CSS pixels. */
export interface GripPlace {
  readonly x: number;
  readonly y: number;
  /** Of the drawing. */
  readonly width: number;
  readonly height: number;
  readonly dx: number;
  readonly dy: number;
}

interface Grip<First, Draft> {
  /** The drawing, where it is neither the SVG around the grip nor the grip itself. */
  readonly area?: RefObject<Element | null>;
  /** Home and End step by infinity. */
  readonly toEnds?: boolean;
  /** What a drag starts from, as it was when the grip was taken. */
  take(place: GripPlace): First;
  /** What the drag makes of it here: to be shown, or shown at once. */
  pull(first: First, place: GripPlace): Draft;
  /** The grip was let go after it moved: one change. */
  drop?(draft: Draft): void;
  /** The drag was dropped: as if it had never begun. */
  cancel?(first: First): void;
  /** An arrow key; PageUp is a big step up. Big: with Shift, and by the Page keys. */
  step?(right: number, down: number, big: boolean): void;
}

const steps: Readonly<Record<string, readonly [right: number, down: number, big?: true]>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
  PageUp: [0, -1, true],
  PageDown: [0, 1, true],
};
const stepsToEnds: typeof steps = { ...steps, Home: [-Infinity, 0], End: [Infinity, 0] };

interface Held<First, Draft> {
  readonly first: First;
  readonly x: number;
  readonly y: number;
  readonly moved: boolean;
  readonly draft?: Draft;
}

/** `first` and `draft` stand while it is dragged; `handlers` go onto the grip. */
export const useGrip = <First, Draft = void>(grip: Grip<First, Draft>) => {
  const [held, setHeld] = useState<Held<First, Draft>>();
  const placeOf = ({ currentTarget, clientX, clientY }: PointerEvent, from = held): GripPlace => {
    const svg = currentTarget instanceof SVGElement ? currentTarget.ownerSVGElement : null;
    const area = grip.area?.current ?? svg ?? currentTarget;
    const { left, top, width, height } = area.getBoundingClientRect();
    const [x, y] = [clientX - left, clientY - top];
    return {
      x,
      y,
      width,
      height,
      dx: clientX - (from?.x ?? clientX),
      dy: clientY - (from?.y ?? clientY),
    };
  };
  const hasMoved = ({ dx, dy }: GripPlace) => held?.moved === true || dx !== 0 || dy !== 0;
  const cancel = () => {
    if (held === undefined) return;
    setHeld(undefined);
    grip.cancel?.(held.first);
  };
  return {
    first: held?.first,
    draft: held?.draft,
    handlers: {
      onPointerDown: (event: PointerEvent) => {
        event.currentTarget.setPointerCapture(event.pointerId);
        const first = grip.take(placeOf(event, undefined));
        setHeld({ first, x: event.clientX, y: event.clientY, moved: false });
      },
      onPointerMove: (event: PointerEvent) => {
        if (held === undefined) return;
        const place = placeOf(event);
        if (hasMoved(place)) setHeld({ ...held, moved: true, draft: grip.pull(held.first, place) });
      },
      onPointerUp: (event: PointerEvent) => {
        if (held === undefined) return;
        setHeld(undefined);
        const place = placeOf(event);
        if (hasMoved(place)) grip.drop?.(grip.pull(held.first, place));
      },
      onPointerCancel: cancel,
      onKeyDown: (event: KeyboardEvent) => {
        if (event.key === 'Escape') return cancel();
        const [right, down, big] = (grip.toEnds === true ? stepsToEnds : steps)[event.key] ?? [];
        if (right === undefined || down === undefined || grip.step === undefined) return;
        event.preventDefault();
        grip.step(right, down, big ?? event.shiftKey);
      },
    },
  };
};
