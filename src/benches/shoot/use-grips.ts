/** The two grips of the top view: dragged, they are one step; by keys, quick presses fold into one. */
import type { KeyboardEvent, PointerEvent } from 'react';
import { useState } from 'react';
import { gainThatFits } from '../../core/plan/depth.ts';
import { rigDepth } from '../../core/plan/rig.ts';
import { mm } from '../../core/units/units.ts';
import type { Job } from '../../job/schema/job.ts';
import { depthGainOf } from '../../job/facts/plan.ts';
import { keyDistanceOf, moveKeyPlane, rigSettingOf, setRigGain } from '../../job/facts/rig.ts';
import { useChange } from '../studio.ts';
import type { TopViewLayout } from '../../job/facts/top-view.ts';

type Grip = 'key' | 'gain';
const labels = { key: 'key plane', gain: 'depth gain' } as const;

/** The gain at which the sharp range in front of the key plane ends so far before it. */
const gainForFront = (job: Job, front: number): number => {
  const setting = rigSettingOf(job);
  const scale = setting.printWidthMm / setting.keyWidth;
  return gainThatFits(rigDepth(setting), { frontMm: mm(-front * scale), behindMm: mm(0) });
};

/** The job with a grip moved to a depth behind the key plane as it was when the drag began. */
const dragged = (from: Job, grip: Grip, depth: number): Job => {
  const distance = keyDistanceOf(from);
  if (grip === 'key') return moveKeyPlane(from, Math.max(depth, -0.95 * distance));
  const front = Math.min(0.98 * distance, Math.max(0.005 * distance, -depth));
  return setRigGain(from, gainForFront(from, front));
};

/** What was when the grip was taken. */
interface Held {
  readonly grip: Grip;
  readonly job: Job;
  readonly layout: TopViewLayout;
  /** Where, below the grip's line: it does not jump to the pointer. CSS pixels. */
  readonly below: number;
  readonly moved: boolean;
}

/** `onDraft` is told what a dragged grip would make of the job; undefined once it is let go. */
export const useGrips = (
  job: Job,
  layout: TopViewLayout,
  onDraft: (job: Job | undefined) => void,
) => {
  const [held, setHeld] = useState<Held>();
  const change = useChange();
  const atPointer = (event: PointerEvent<SVGElement>) => {
    const area = event.currentTarget.ownerSVGElement?.getBoundingClientRect();
    return event.clientY - (area?.top ?? 0);
  };
  const grab = (grip: Grip) => (event: PointerEvent<SVGGElement>) => {
    event.currentTarget.setPointerCapture(event.pointerId);
    const lineY = layout.yOf(grip === 'key' ? 0 : -layout.sharp.front);
    setHeld({ grip, job, layout, below: atPointer(event) - lineY, moved: false });
  };
  const depthOf = ({ layout: own, below }: Held, event: PointerEvent<SVGElement>) =>
    own.depthAt(atPointer(event) - below);
  const move = (event: PointerEvent<SVGGElement>) => {
    if (held === undefined) return;
    if (!held.moved) setHeld({ ...held, moved: true });
    onDraft(dragged(held.job, held.grip, depthOf(held, event)));
  };
  const finish = (event: PointerEvent<SVGGElement>) => {
    if (held === undefined) return;
    setHeld(undefined);
    onDraft(undefined);
    if (event.type !== 'pointerup' || !held.moved) return;
    const depth = depthOf(held, event);
    change(labels[held.grip], () => dragged(held.job, held.grip, depth));
  };
  const press = (grip: Grip) => (event: KeyboardEvent) => {
    const steps: Record<string, number> = {
      ArrowUp: 1,
      ArrowRight: 1,
      ArrowDown: -1,
      ArrowLeft: -1,
      PageUp: 10,
      PageDown: -10,
    };
    const step = steps[event.key];
    if (step === undefined) return;
    event.preventDefault();
    change(
      labels[grip],
      (now) =>
        grip === 'key'
          ? moveKeyPlane(now, step * 0.01 * keyDistanceOf(now))
          : setRigGain(now, depthGainOf(now) * 1.02 ** step + (step > 0 ? 0.0005 : 0)),
      `rig.${grip}`,
    );
  };
  const handlers = (grip: Grip) => ({
    tabIndex: 0,
    role: 'slider',
    'aria-orientation': 'vertical' as const,
    onPointerDown: grab(grip),
    onPointerMove: move,
    onPointerUp: finish,
    onPointerCancel: finish,
    onKeyDown: press(grip),
  });
  return { held: held?.layout, handlers };
};
