/** Every lens that is listed as a point: fineness against what it is wanted for. The table beneath says the same. */
import type { FoundLens, LensWish } from '../../../core/plan/finder.ts';
import { trimmed } from '../../../core/units/format.ts';
import { mm, mmToInch, radToDeg } from '../../../core/units/units.ts';
import { Plot, ratioAxis } from '../../../ui/plot/index.ts';
import { useJob, useUnits } from '../../studio.ts';
import styles from './finder.module.css';

interface Props {
  readonly found: readonly FoundLens[];
  readonly wish: LensWish;
}

const few = (value: number) => String(Number(value.toPrecision(2)));

/** What is good about a lens for this, as a length or an angle, and how much of it is wanted. */
const useMerit = (wish: LensWish) => {
  const units = useUnits();
  const shown = (length: number) => (units === 'mm' ? length : mmToInch(mm(length)));
  const { use, depth } = wish;
  if (use.kind !== 'depth')
    return {
      label: 'Viewing cone, degrees',
      of: ({ coneRad }: FoundLens) => radToDeg(coneRad) as number,
      wanted: undefined,
    };
  return {
    label: `Sharp in front of the print, ${units}`,
    of: ({ sharp }: FoundLens) => shown(-sharp.frontMm),
    wanted: depth.frontMm === 0 ? undefined : shown(-depth.frontMm),
  };
};

export const DepthChart = ({ found, wish }: Props) => {
  const { lens } = useJob();
  const { label, of, wanted } = useMerit(wish);
  const merits = found.map(of);
  if (found.length < 2) return null;
  const least = Math.min(...merits, wanted ?? Infinity) / 1.3;
  const most = Math.max(...merits, wanted ?? 0) * 1.3;
  const lpis = found.map(({ lpi }) => lpi as number);
  const meeting = found.filter(({ short }) => short.length === 0).length;
  return (
    <figure>
      <Plot
        name={`${label}, against the lens’s fineness: ${found.length} lenses, ${meeting} of which do all that is asked.`}
        x={ratioAxis('Lens pitch, LPI', [Math.min(...lpis) / 1.2, Math.max(...lpis) * 1.2], few)}
        y={ratioAxis(label, [least, most], few)}
      >
        {(x, y) => {
          const [left, right] = x.range() as [number, number];
          const [, top] = y.range() as [number, number];
          return (
            <>
              {wanted !== undefined && (
                <rect
                  className={styles['wanted']}
                  x={left}
                  y={top}
                  width={right - left}
                  height={Math.max(0, y(wanted) - top)}
                />
              )}
              {found.map((one) => (
                <circle
                  key={one.id}
                  className={one.short.length === 0 ? styles['meets'] : styles['lacks']}
                  cx={x(one.lpi)}
                  cy={y(of(one))}
                  r={one.source === 'own' ? 8 : 5}
                >
                  <title>{one.name}</title>
                </circle>
              ))}
              <line
                className={styles['now']}
                x1={x(25.4 / lens.pitchMm)}
                x2={x(25.4 / lens.pitchMm)}
                y1={top}
                y2={y.range()[0]}
              />
            </>
          );
        }}
      </Plot>
      <figcaption>
        Filled: does all of it. {wanted === undefined ? '' : 'Shaded: the depth that is wanted. '}
        Dashed: the fineness of the lens on the job sheet, {trimmed(25.4 / lens.pitchMm, 2)} LPI.
      </figcaption>
    </figure>
  );
};
