/** A thing on the ruler, moved by pointer or keys: a drag is one step, quick presses fold into one. */
import type { KeyboardEvent, PointerEvent } from 'react';
import { useState } from 'react';
import { depthMeasure, roundDepth } from '../../../core/units/depth-measure.ts';
import { setMark } from '../../../job/edits/depth-marks.ts';
import type { Job } from '../../../job/schema/job.ts';
import { depthMarksOf } from '../../../job/facts/plan.ts';
import { useChange, useView } from '../../studio.ts';
import type { Ruler } from '../../../preview/drawings/depth-ruler.ts';

/** Where the ruler says "any distance" a thing needs a number. */
const FAR_MM = 100_000;

export const useMarkGrip = (job: Job, place: number, ruler: Ruler) => {
  const units = useView((view) => view.units);
  const change = useChange();
  /** While it is dragged: where it would be, on the ruler as it was when it was taken. */
  const [held, setHeld] = useState<{ readonly ruler: Ruler; readonly zMm: number }>();
  const kept = depthMarksOf(job)[place];
  const mark = kept === undefined || held === undefined ? kept : { ...kept, zMm: held.zMm };
  const nearest = -0.98 * job.print.viewingDistanceMm;

  const move = (zMm: number, foldKey?: string) => {
    if (kept === undefined) return;
    const next = Math.max(nearest, Math.min(FAR_MM, zMm));
    change(
      `depth of ${kept.name === '' ? 'a thing' : kept.name}`,
      (now) => setMark(now, place, { zMm: next }),
      foldKey,
    );
  };
  const zAt = (event: PointerEvent<SVGElement>, on: Ruler) => {
    const left = event.currentTarget.ownerSVGElement?.getBoundingClientRect().left ?? 0;
    const x = Math.max(on.left, Math.min(on.right, event.clientX - left));
    const z = Math.max(nearest, Math.min(FAR_MM, on.zAt(x)));
    return roundDepth(z, units);
  };
  const onPointerDown = (event: PointerEvent<SVGGElement>) => {
    if (kept === undefined) return;
    event.currentTarget.setPointerCapture(event.pointerId);
    setHeld({ ruler, zMm: kept.zMm });
  };
  const onPointerMove = (event: PointerEvent<SVGGElement>) => {
    if (held !== undefined) setHeld({ ...held, zMm: zAt(event, held.ruler) });
  };
  const finish = (event: PointerEvent<SVGGElement>) => {
    if (held === undefined) return;
    setHeld(undefined);
    if (event.type === 'pointerup' && held.zMm !== kept?.zMm) move(held.zMm);
  };
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.key === 'Escape') return setHeld(undefined);
    const steps: Record<string, readonly [1 | -1, boolean]> = {
      ArrowRight: [1, false],
      ArrowUp: [1, false],
      ArrowLeft: [-1, false],
      ArrowDown: [-1, false],
      PageUp: [1, true],
      PageDown: [-1, true],
    };
    const step = steps[event.key];
    if (step === undefined || kept === undefined) return;
    event.preventDefault();
    move(depthMeasure(units, kept.zMm).step(kept.zMm, ...step), `depth.${place}`);
  };
  return {
    mark,
    handlers: {
      tabIndex: 0,
      role: 'slider',
      onPointerDown,
      onPointerMove,
      onPointerUp: finish,
      onPointerCancel: finish,
      onKeyDown,
    },
  };
};
