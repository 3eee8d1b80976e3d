/** Where each direction of the cone lands, with its spread: traced, over the line of relation 1. */
import { scaleLinear } from 'd3-scale';
import type { Axis } from '../../../ui/plot/index.ts';
import { Plot, line } from '../../../ui/plot/index.ts';
import { trimmed } from '../../../core/units/format.ts';
import { mm, mmToInch } from '../../../core/units/units.ts';
import { useUnits } from '../../studio.ts';
import type { Landing } from '../../../preview/drawings/ray-fan.ts';
import styles from './lens.module.css';

interface Props {
  readonly all: readonly Landing[];
  readonly pitchMm: number;
  readonly angle: number;
}

const degrees = (angleRad: number) => (angleRad * 180) / Math.PI;

const evenAxis = (label: string, most: number, format: (value: number) => string): Axis => ({
  label,
  scale: (range) => scaleLinear([-most, most], range),
  ticks: () => scaleLinear([-most, most], [0, 1]).ticks(7),
  format,
});

export const LandingPlot = ({ all, pitchMm, angle }: Props) => {
  const units = useUnits();
  const shown = (lengthMm: number) => (units === 'mm' ? lengthMm : mmToInch(mm(lengthMm)));
  const reach = shown(
    all.reduce(
      (most, { meanMm = 0, fullMm }) => Math.max(most, Math.abs(meanMm) + fullMm / 2),
      pitchMm / 2,
    ),
  );
  return (
    <Plot
      name="Landing place and spread against view direction, over the whole cone. The figures are in the table below."
      height={280}
      x={evenAxis(
        'Looked at from, degrees; right is above 0',
        degrees(all.at(-1)?.angleRad ?? 1),
        String,
      )}
      y={evenAxis(`Lands from the rib’s middle, ${units}; bars: its spread`, reach, (value) =>
        trimmed(value, units === 'mm' ? 3 : 4),
      )}
    >
      {(x, y) => (
        <>
          <line
            className={styles['now']}
            x1={x(degrees(angle))}
            x2={x(degrees(angle))}
            y1={y(-reach)}
            y2={y(reach)}
          />
          <path
            className={styles['paraxial']}
            d={line(
              all.map(({ angleRad, paraxialMm }) => [x(degrees(angleRad)), y(shown(paraxialMm))]),
            )}
          />
          {all.map(({ angleRad, meanMm, fullMm }) =>
            meanMm === undefined ? null : (
              <g key={angleRad} className={styles['spread']}>
                <line
                  x1={x(degrees(angleRad))}
                  x2={x(degrees(angleRad))}
                  y1={y(shown(meanMm + fullMm / 2))}
                  y2={y(shown(meanMm - fullMm / 2))}
                />
                <circle cx={x(degrees(angleRad))} cy={y(shown(meanMm))} r="3" />
              </g>
            ),
          )}
        </>
      )}
    </Plot>
  );
};
