/** The two grips of the top view: dragged, they are one step; by keys, quick presses fold into one. */
import { gainThatFits } from '../../core/plan/depth.ts';
import { rigDepth } from '../../core/plan/rig.ts';
import { mm } from '../../core/units/units.ts';
import type { Job } from '../../job/schema/job.ts';
import { depthGainOf } from '../../job/facts/plan.ts';
import { keyDistanceOf, rigSettingOf, setRigGain } from '../../job/facts/rig.ts';
import { moveKeyOnStage } from '../../job/facts/stage.ts';
import { useChange } from '../studio.ts';
import type { TopViewLayout } from '../../job/facts/top-view.ts';
import { useGrip } from '../../ui/index.ts';

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
  if (grip === 'key') return moveKeyOnStage(from, Math.max(depth, -0.95 * distance));
  const front = Math.min(0.98 * distance, Math.max(0.005 * distance, -depth));
  return setRigGain(from, gainForFront(from, front));
};

interface Top {
  readonly job: Job;
  readonly layout: TopViewLayout;
  /** Told what a dragged grip would make of the job; undefined once it is let go. */
  onDraft(job: Job | undefined): void;
}

const useOneGrip = (grip: Grip, { job, layout, onDraft }: Top) => {
  const change = useChange();
  const { first, handlers } = useGrip({
    // As it was when the grip was taken; it does not jump to the pointer.
    take: ({ y }) => {
      const lineY = layout.yOf(grip === 'key' ? 0 : -layout.sharp.front);
      return { job, layout, below: y - lineY };
    },
    pull: (from, { y }) => {
      const next = dragged(from.job, grip, from.layout.depthAt(y - from.below));
      onDraft(next);
      return next;
    },
    drop: (next) => {
      onDraft(undefined);
      change(labels[grip], () => next);
    },
    cancel: () => onDraft(undefined),
    step: (right, down, big) => {
      const step = (right - down) * (big ? 10 : 1);
      change(
        labels[grip],
        (now) =>
          grip === 'key'
            ? moveKeyOnStage(now, step * 0.01 * keyDistanceOf(now))
            : setRigGain(now, depthGainOf(now) * 1.02 ** step + (step > 0 ? 0.0005 : 0)),
        `rig.${grip}`,
      );
    },
  });
  const slider = {
    tabIndex: 0,
    role: 'slider',
    'aria-orientation': 'vertical',
    ...handlers,
  } as const;
  return { held: first?.layout, slider };
};

export const useGrips = (top: Top) => {
  const [key, gain] = [useOneGrip('key', top), useOneGrip('gain', top)];
  return { held: key.held ?? gain.held, key: key.slider, gain: gain.slider };
};
