/** Where each direction of the cone lands, with its spread: traced, over the line of relation 1. */
import { useWidth } from '../../../ui/plot/use-width.ts';
import type { Landing } from './fan.ts';
import styles from './lens.module.css';

interface Props {
  readonly all: readonly Landing[];
  readonly pitchMm: number;
  readonly angle: number;
}

const HEIGHT = 240;
const EDGE = 30;

export const LandingPlot = ({ all, pitchMm, angle }: Props) => {
  const [box, width] = useWidth<HTMLDivElement>(560);
  const half = all.at(-1)?.angleRad ?? 1;
  const x = (angleRad: number) => width / 2 + (angleRad / half) * (width / 2 - EDGE);
  const y = (place: number) => HEIGHT / 2 - (place / (0.6 * pitchMm)) * (HEIGHT / 2 - EDGE);
  const line = all.map(({ angleRad, paraxialMm }) => `${x(angleRad)} ${y(paraxialMm)}`).join('L');
  const degrees = `${Math.round((half * 180) / Math.PI)}°`;
  return (
    <div ref={box} className={styles['section']}>
      <svg
        width={width}
        height={HEIGHT}
        className={styles['plot']}
        role="img"
        aria-label="Landing place and spread against view direction, over the whole cone. The figures are in the table below."
      >
        <line className={styles['now']} x1={x(angle)} x2={x(angle)} y1={EDGE} y2={HEIGHT - EDGE} />
        <path className={styles['paraxial']} d={`M${line}`} />
        {all.map(({ angleRad, meanMm, fullMm }) =>
          meanMm === undefined ? null : (
            <g key={angleRad} className={styles['spread']}>
              <line
                x1={x(angleRad)}
                x2={x(angleRad)}
                y1={y(meanMm + fullMm / 2)}
                y2={y(meanMm - fullMm / 2)}
              />
              <circle cx={x(angleRad)} cy={y(meanMm)} r="3" />
            </g>
          ),
        )}
        <text x={EDGE} y={HEIGHT - 8}>
          {degrees} left
        </text>
        <text x={width - EDGE} y={HEIGHT - 8} textAnchor="end">
          {degrees} right
        </text>
        <text x={8} y={18}>
          Lands right (up) or left (down) of the rib’s middle
        </text>
      </svg>
    </div>
  );
};
