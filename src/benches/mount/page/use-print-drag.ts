/** Moves the print on the drawing of its page: by hand, shown as it goes, or by the arrow keys. */
import type { KeyboardEvent, PointerEvent } from 'react';
import { useState } from 'react';
import type { PagePlan } from '../../../core/sheet/page-layout.ts';
import type { LengthUnit } from '../../../core/units/parse.ts';
import { MM_PER_INCH } from '../../../core/units/units.ts';
import { movePrint } from '../../../job/edits/page.ts';
import { useChange } from '../../studio.ts';

const steps: Readonly<Record<string, readonly [right: number, down: number]>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
};

/** What a key moves the print by: a round length in either unit. Ten times that with Shift. */
export const KEY_STEP_MM = { mm: 1, in: 0.05 * MM_PER_INCH } as const;

/** Where the pointer is, and what it has moved since it was pressed, in millimetres of the paper. */
interface Drag {
  readonly x: number;
  readonly y: number;
  readonly dx: number;
  readonly dy: number;
}

export const usePrintDrag = ({ paperWidthMm, paperHeightMm }: PagePlan, units: LengthUnit) => {
  const change = useChange();
  const [drag, setDrag] = useState<Drag>();
  const at = ({ currentTarget, clientX, clientY }: PointerEvent<SVGElement>) => {
    const box = currentTarget.ownerSVGElement?.getBoundingClientRect();
    // The paper keeps its shape within the drawing, whichever side is the tighter one.
    const perMm =
      box === undefined ? 1 : Math.min(box.width / paperWidthMm, box.height / paperHeightMm);
    return { x: clientX / perMm, y: clientY / perMm };
  };
  const finish = (event: PointerEvent<SVGElement>) => {
    if (drag === undefined) return;
    setDrag(undefined);
    if (event.type === 'pointerup' && (drag.dx !== 0 || drag.dy !== 0))
      change(...movePrint(drag.dx, drag.dy, 'drag'));
  };
  return {
    dx: drag?.dx ?? 0,
    dy: drag?.dy ?? 0,
    handlers: {
      onPointerDown: (event: PointerEvent<SVGElement>) => {
        event.currentTarget.setPointerCapture(event.pointerId);
        setDrag({ ...at(event), dx: 0, dy: 0 });
      },
      onPointerMove: (event: PointerEvent<SVGElement>) => {
        if (drag === undefined) return;
        const now = at(event);
        setDrag({ ...drag, dx: now.x - drag.x, dy: now.y - drag.y });
      },
      onPointerUp: finish,
      onPointerCancel: finish,
      onKeyDown: (event: KeyboardEvent) => {
        const step = steps[event.key];
        if (step === undefined) return;
        event.preventDefault();
        const size = KEY_STEP_MM[units] * (event.shiftKey ? 10 : 1);
        change(...movePrint(step[0] * size, step[1] * size, 'key'));
      },
    },
  };
};
