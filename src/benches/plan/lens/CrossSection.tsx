/** Three ribs of the sheet to scale, cut across, with the sight lines of one eye. The eye can be moved. */
import { useMemo } from 'react';
import type { Standing } from '../../../core/lens/focus.ts';
import { surfaceDepth } from '../../../core/lens/trace.ts';
import { sayFine, trimmed } from '../../../core/units/format.ts';
import type { GripPlace } from '../../../ui/index.ts';
import { useGrip } from '../../../ui/index.ts';
import { useUnits } from '../../studio.ts';
import { slotColour } from '../../../ui/slot-colour.ts';
import { useWidth } from '../../../ui/plot/index.ts';
import {
  fanOf,
  halfCone,
  landingAt,
  outlineOf,
  RIBS,
  sayAngle,
  saySlot,
  slotAt,
} from '../../../preview/drawings/ray-fan.ts';
import styles from './lens.module.css';

interface Props {
  readonly lens: Standing['lens'];
  readonly viewSlots: number;
  readonly angle: number;
  onAngle(angle: number): void;
}

const EYE_ABOVE = 130;
const PRINT_DEEP = 16;
const MOST_HIGH = 420;

interface EyeProps {
  readonly place: readonly [x: number, y: number];
  readonly angle: number;
  /** The greatest angle to either side. */
  readonly half: number;
  /** What it sees. */
  readonly words: string;
}

const Eye = ({ place: [x, y], angle, half, words }: EyeProps) => (
  <g
    role="slider"
    tabIndex={0}
    aria-label="Eye"
    aria-valuemin={-Math.round((half * 180) / Math.PI)}
    aria-valuemax={Math.round((half * 180) / Math.PI)}
    aria-valuenow={Math.round((angle * 180) / Math.PI)}
    aria-valuetext={words}
    className={styles['eye']}
    transform={`translate(${x} ${y})`}
  >
    <circle r="18" />
    <path d="M-12 0Q0 -11 12 0Q0 11 -12 0Z" />
    <circle r="4" className={styles['pupil']} />
  </g>
);

export const CrossSection = ({ lens, viewSlots, angle, onAngle }: Props) => {
  const [box, width] = useWidth<HTMLDivElement>(560);
  const units = useUnits();
  const half = halfCone(lens);
  const { pitchMm: p, thicknessMm: t } = lens;
  const scale = Math.min((width - 24) / (3 * p), MOST_HIGH / t);
  const x = (place: number) => width / 2 + place * scale;
  const y = (depth: number) => EYE_ABOVE + depth * scale;
  const height = y(t) + PRINT_DEEP + 12;
  const fan = useMemo(() => fanOf(lens, angle), [lens, angle]);
  const seen = landingAt(lens, angle);
  const slot = seen.meanMm === undefined ? undefined : slotAt(seen.meanMm, p, viewSlots);
  const words = `${sayAngle(angle)}, ${slot === undefined ? 'sees no print' : saySlot(slot, viewSlots)}`;

  // The eye glides along an arc around the middle rib's crest.
  const reach = EYE_ABOVE - 24;
  const eyeX = x(0) + Math.sin(angle) * reach;
  const eyeY = EYE_ABOVE - Math.cos(angle) * reach;
  const outline = useMemo(() => outlineOf(lens), [lens]);

  const set = (next: number) =>
    onAngle(Math.abs(next) < 1e-6 ? 0 : Math.max(-half, Math.min(half, next)));
  const look = (place: GripPlace) =>
    set(Math.atan2(place.x - x(0), Math.max(10, EYE_ABOVE - place.y)));
  const { handlers } = useGrip({
    toEnds: true,
    take: (place) => {
      look(place);
      return angle;
    },
    pull: (_, place) => look(place),
    cancel: onAngle,
    step: (right, down, big) => set(angle + ((right - down) * (big ? 5 : 1) * Math.PI) / 180),
  });

  return (
    <div ref={box} className={styles['section']}>
      <svg width={width} height={height} className={styles['drawing']} {...handlers}>
        <path
          className={styles['glass']}
          d={`M${outline.map(([place, depth]) => `${x(place)} ${y(depth)}`).join('L')}Z`}
        />
        {RIBS.map((rib) =>
          Array.from({ length: viewSlots }, (_, one) => (
            <rect
              key={`${rib} ${one}`}
              x={x((rib + 0.5 - (one + 1) / viewSlots) * p)}
              y={y(t)}
              width={(p * scale) / viewSlots}
              height={PRINT_DEEP}
              style={{ fill: slotColour(one, viewSlots) }}
              className={rib === slot?.rib && one === slot.slot ? styles['seen'] : styles['slot']}
            />
          )),
        )}
        {fan.map(({ entryMm, landingMm }) => {
          const [inX, inY] = [x(entryMm), y(surfaceDepth(lens, entryMm))];
          const back = (inY - eyeY) / Math.cos(angle);
          return (
            <path
              key={entryMm}
              className={styles['ray']}
              d={`M${inX + Math.sin(angle) * back} ${eyeY}L${inX} ${inY}L${x(landingMm)} ${y(t)}`}
            />
          );
        })}
        <Eye place={[eyeX, eyeY]} angle={angle} half={half} words={words} />
      </svg>
      <p className={styles['words']}>
        {slot === undefined
          ? `From ${sayAngle(angle)} the eye sees no print.`
          : `From ${sayAngle(angle)} the eye ${saySlot(slot, viewSlots)}, spread from end to end over ${sayFine(Number(seen.fullMm.toFixed(3)), units)}: ${trimmed((100 * seen.fullMm) / p, 0)} % of a rib.`}{' '}
        Slot 1 is the leftmost camera’s. The eye is far away, so its sight lines arrive side by
        side. Drag it, or use the arrow keys.
      </p>
    </div>
  );
};
