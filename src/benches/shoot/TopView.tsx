/** The rig from above: cameras, their sheared windows, the key plane, what is sharp and what is not. */
import { trimmed } from '../../core/units/format.ts';
import type { Job } from '../../job/schema/job.ts';
import { depthGainOf } from '../../job/facts/plan.ts';
import { sceneUnitOf } from '../../job/facts/rig.ts';
import { BreaksUp, DepthZone } from '../desk/DepthZone.tsx';
import { useWidth } from '../../ui/plot/index.ts';
import { CameraRow } from './CameraRow.tsx';
import { sceneLength } from '../../job/facts/scene-measure.ts';
import type { Band, TopViewLayout } from '../../job/facts/top-view.ts';
import {
  HALF_GRIP,
  gainGripY,
  layTopView,
  onScaleOf,
  partForName,
} from '../../job/facts/top-view.ts';
import { useGrips } from './use-grips.ts';
import styles from './shoot.module.css';

const words = { sharp: 'sharp', soft: 'soft', broken: 'breaks up' } as const;

interface Props {
  readonly job: Job;
  /** While a grip is dragged the bench shows what would be; undefined puts it back. */
  onDraft(job: Job | undefined): void;
}

interface BandProps {
  readonly band: Band;
  readonly width: number;
  readonly keyY: number;
}

/** How things look at these depths: in colour, hatched where they break up, and in a word. */
const DepthBand = ({ band, width, keyY }: BandProps) => {
  const { quality, top, bottom } = band;
  const area = { x: 0, y: top, width, height: bottom - top };
  const part = partForName(band, keyY);
  return (
    <g>
      <DepthZone quality={quality} {...area} />
      {part.bottom - part.top > 19 && (
        <text x="8" y={(part.top + part.bottom) / 2 + 5}>
          {words[quality]}
        </text>
      )}
    </g>
  );
};

interface ThingsProps {
  readonly job: Job;
  readonly view: TopViewLayout;
  /** Upper edge of the bands, CSS pixels. */
  readonly top: number;
}

const Things = ({ job, view, top }: ThingsProps) =>
  (['near', 'far'] as const).map((which) => {
    const z = job.rig?.[which];
    if (z === undefined || (which === 'near' && z >= view.distance)) return null;
    const y = view.yOf(which === 'near' ? -z : z);
    return (
      <g key={which}>
        <path d={`M0 ${y}H${view.width}`} className={styles['thing']} />
        <text x={view.width - 8} y={y - 19 < top ? y + 16 : y - 5} className={styles['right']}>
          {which === 'near' ? 'nearest thing' : 'farthest thing'}
        </text>
      </g>
    );
  });

export const TopView = ({ job, onDraft }: Props) => {
  const [box, width] = useWidth<HTMLDivElement>(640);
  const { held, ...grips } = useGrips({ job, layout: layTopView(job, width), onDraft });
  // While a grip is held the scale must not run away under the pointer.
  const view = held === undefined ? layTopView(job, width) : onScaleOf(job, held);
  const unit = sceneUnitOf(job);
  const { rig, yOf, xOf } = view;
  const top = Math.min(...view.bands.map((band) => band.top));
  const reachTop = (view.cameraY - top) / view.perUnit;

  const gain = depthGainOf(job);
  const keyY = yOf(0);
  const frontY = yOf(-view.sharp.front);
  const [gripX, gripY] = [width * 0.3, gainGripY(keyY, frontY)];

  return (
    <div ref={box} className={styles['top']}>
      <svg width={width} height={view.height} role="group" aria-label="The rig from above">
        <defs>
          <BreaksUp />
          <clipPath id="shoot-plot">
            <rect x="0" y={top} width={width} height={view.cameraY - top} />
          </clipPath>
        </defs>
        {view.bands.map((band) => (
          <DepthBand key={band.top} band={band} width={width} keyY={keyY} />
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
          <Things job={job} view={view} top={top} />
        </g>
        <CameraRow rig={rig} width={width} y={view.cameraY} xOf={xOf} unit={unit} />
        <g
          {...grips.gain}
          className={styles['grip']}
          aria-label="Depth gain, by the sharp range in front"
          aria-valuemin={0.001}
          aria-valuemax={10}
          aria-valuenow={gain}
          aria-valuetext={`Depth gain ${trimmed(gain, 4)}, sharp to ${sceneLength(view.sharp.front, unit)} in front of the key plane`}
        >
          <path d={`M0 ${frontY}H${width}`} className={styles['reachOfGrip']} />
          <path d={`M0 ${frontY}H${width}`} className={styles['limit']} />
          <path d={`M${gripX} ${frontY}V${gripY}`} className={styles['stem']} />
          <rect x={gripX - 38} y={gripY - HALF_GRIP} width="76" height={2 * HALF_GRIP} rx="4" />
          <text x={gripX} y={gripY + 5} className={styles['onGrip']}>
            ↕ gain
          </text>
        </g>
        <g
          {...grips.key}
          className={styles['grip']}
          aria-label="Key plane"
          aria-valuemin={0}
          aria-valuemax={view.reach}
          aria-valuenow={view.distance}
          aria-valuetext={`Key plane ${sceneLength(view.distance, unit)} from the cameras, ${sceneLength(rig.keyWidth, unit)} wide`}
        >
          <path d={`M0 ${keyY}H${width}`} className={styles['reachOfGrip']} />
          <path d={`M0 ${keyY}H${width}`} className={styles['keyPlane']} />
          <rect
            x={width * 0.6 - 56}
            y={keyY - HALF_GRIP}
            width="112"
            height={2 * HALF_GRIP}
            rx="4"
          />
          <text x={width * 0.6} y={keyY + 5} className={styles['onGrip']}>
            ↕ key plane
          </text>
        </g>
      </svg>
    </div>
  );
};
