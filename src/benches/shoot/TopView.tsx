/** The rig from above: cameras, their sheared windows, the key plane, what is sharp and what is not. */
import type { KeyboardEvent, PointerEvent } from 'react';
import { useRef, useState } from 'react';
import { trimmed } from '../../core/units/format.ts';
import { gainThatFits } from '../../core/plan/depth.ts';
import { rigDepth } from '../../core/plan/rig.ts';
import { mm } from '../../core/units/units.ts';
import type { Job } from '../../job/job.ts';
import { depthGainOf } from '../../job/plan.ts';
import {
  keyDistanceOf,
  moveKeyPlane,
  rigSettingOf,
  sceneUnitOf,
  setRigGain,
} from '../../job/rig.ts';
import { tryChange } from '../../state/change.ts';
import { useWidth } from '../../ui/plot/use-width.ts';
import { CameraRow } from './CameraRow.tsx';
import { sceneLength } from './scene-measure.ts';
import { layTopView } from './top-view.ts';
import styles from './shoot.module.css';

const words = { sharp: 'sharp', soft: 'soft', broken: 'breaks up' } as const;

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

interface Props {
  readonly job: Job;
  /** While a grip is dragged the bench shows what would be; undefined puts it back. */
  onDraft(job: Job | undefined): void;
}

export const TopView = ({ job, onDraft }: Props) => {
  const [box, width] = useWidth<HTMLDivElement>(640);
  const start = useRef<{ grip: Grip; job: Job; view: ReturnType<typeof layTopView> }>(undefined);
  const [held, setHeld] = useState<ReturnType<typeof layTopView>>();
  const fresh = layTopView(job, width);
  // While a grip is held the scale must not run away under the pointer.
  const view = held === undefined ? fresh : { ...layTopView(job, width), ...rescaled(job, held) };
  const unit = sceneUnitOf(job);
  const { rig, yOf, xOf } = view;
  const top = Math.min(...view.bands.map((band) => band.top));
  const reachTop = (view.cameraY - top) / view.perUnit;

  const atPointer = (event: PointerEvent<SVGElement>) => {
    const area = event.currentTarget.ownerSVGElement?.getBoundingClientRect();
    return event.clientY - (area?.top ?? 0);
  };
  const grab = (grip: Grip) => (event: PointerEvent<SVGGElement>) => {
    event.currentTarget.setPointerCapture(event.pointerId);
    start.current = { grip, job, view: fresh };
    setHeld(fresh);
  };
  const move = (event: PointerEvent<SVGGElement>) => {
    const from = start.current;
    if (from !== undefined)
      onDraft(dragged(from.job, from.grip, from.view.depthAt(atPointer(event))));
  };
  const finish = (event: PointerEvent<SVGGElement>) => {
    const from = start.current;
    if (from === undefined) return;
    start.current = undefined;
    setHeld(undefined);
    onDraft(undefined);
    if (event.type !== 'pointerup') return;
    const depth = from.view.depthAt(atPointer(event));
    tryChange(labels[from.grip], () => dragged(from.job, from.grip, depth));
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
    tryChange(
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
    className: styles['grip'],
    onPointerDown: grab(grip),
    onPointerMove: move,
    onPointerUp: finish,
    onPointerCancel: finish,
    onKeyDown: press(grip),
  });
  const gain = depthGainOf(job);
  const keyY = yOf(0);
  const frontY = yOf(-view.sharp.front);

  return (
    <div ref={box} className={styles['top']}>
      <svg width={width} height={view.height} role="group" aria-label="The rig from above">
        <defs>
          <pattern id="shoot-broken" width="8" height="8" patternUnits="userSpaceOnUse">
            <path d="M0 8 8 0" className={styles['hatch']} />
          </pattern>
          <clipPath id="shoot-plot">
            <rect x="0" y={top} width={width} height={view.cameraY - top} />
          </clipPath>
        </defs>
        {view.bands.map((band) => (
          <g key={band.top}>
            <rect
              x="0"
              y={band.top}
              width={width}
              height={band.bottom - band.top}
              className={styles[band.quality]}
            />
            {band.quality === 'broken' && (
              <rect
                x="0"
                y={band.top}
                width={width}
                height={band.bottom - band.top}
                fill="url(#shoot-broken)"
              />
            )}
            {band.bottom - band.top > 19 && (
              <text x="8" y={(band.top + band.bottom) / 2 + 5} className={styles['bandName']}>
                {words[band.quality]}
              </text>
            )}
          </g>
        ))}
        <g clipPath="url(#shoot-plot)">
          {rig.cameras.map(({ view: number, x }) => {
            const share = reachTop / view.distance;
            const edge = (side: number) => xOf(x + (side * rig.keyWidth * share) / 2 - x * share);
            const outer = number === 0 || number === rig.cameras.length - 1;
            return (
              <path
                key={number}
                d={`M${edge(-1)} ${top}L${xOf(x)} ${view.cameraY}L${edge(1)} ${top}`}
                className={outer ? styles['outerRay'] : styles['ray']}
              />
            );
          })}
          {(['near', 'far'] as const).map((which) => {
            const z = job.rig?.[which];
            if (z === undefined || (which === 'near' && z >= view.distance)) return null;
            const y = yOf(which === 'near' ? -z : z);
            return (
              <g key={which}>
                <path d={`M0 ${y}H${width}`} className={styles['thing']} />
                <text x={width - 8} y={y - 5} className={styles['right']}>
                  {which === 'near' ? 'nearest thing' : 'farthest thing'}
                </text>
              </g>
            );
          })}
        </g>
        <CameraRow rig={rig} width={width} y={view.cameraY} xOf={xOf} unit={unit} />
        <g
          {...handlers('gain')}
          aria-label="Depth gain, by the sharp range in front"
          aria-valuemin={0.001}
          aria-valuemax={10}
          aria-valuenow={gain}
          aria-valuetext={`Depth gain ${trimmed(gain, 4)}, sharp to ${sceneLength(view.sharp.front, unit)} in front of the key plane`}
        >
          <path d={`M0 ${frontY}H${width}`} className={styles['reachOfGrip']} />
          <path d={`M0 ${frontY}H${width}`} className={styles['limit']} />
          <rect x={width * 0.3 - 38} y={frontY - 13} width="76" height="26" rx="4" />
          <text x={width * 0.3} y={frontY + 5} className={styles['onGrip']}>
            ↕ gain
          </text>
        </g>
        <g
          {...handlers('key')}
          aria-label="Key plane"
          aria-valuemin={0}
          aria-valuemax={view.reach}
          aria-valuenow={view.distance}
          aria-valuetext={`Key plane ${sceneLength(view.distance, unit)} from the cameras, ${sceneLength(rig.keyWidth, unit)} wide`}
        >
          <path d={`M0 ${keyY}H${width}`} className={styles['reachOfGrip']} />
          <path d={`M0 ${keyY}H${width}`} className={styles['keyPlane']} />
          <rect x={width * 0.6 - 56} y={keyY - 13} width="112" height="26" rx="4" />
          <text x={width * 0.6} y={keyY + 5} className={styles['onGrip']}>
            ↕ key plane
          </text>
        </g>
      </svg>
    </div>
  );
};

/** The layout of a job on the scale another layout has. */
const rescaled = (
  job: Job,
  { perUnit, cameraY, width, height, reach, depthAt }: ReturnType<typeof layTopView>,
) => {
  const own = layTopView(job, width);
  const factor = perUnit / own.perUnit;
  const yOf = (z: number) =>
    Math.max(12, Math.min(cameraY, cameraY - (own.distance + z) * perUnit));
  return {
    ...{ perUnit, cameraY, height, reach, depthAt, yOf },
    xOf: (x: number) => width / 2 + x * perUnit,
    bands: own.bands.map(({ quality, top, bottom }) => ({
      quality,
      top: top <= 12 ? 12 : Math.max(12, cameraY - (cameraY - top) * factor),
      bottom: Math.max(12, cameraY - (cameraY - bottom) * factor),
    })),
  };
};
