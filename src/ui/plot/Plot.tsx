/** A plot of lines in plain SVG: its frame, its two axes with ticks, and room for what is drawn in it. */
import type { ScaleContinuousNumeric } from 'd3-scale';
import type { ReactNode } from 'react';
import { withMinus } from '../../core/units/format.ts';
import styles from './Plot.module.css';
import { useWidth } from './use-width.ts';

export type Scale = ScaleContinuousNumeric<number, number>;

export interface Axis {
  /** What is measured, with its unit: "Print size across the ribs, mm". */
  readonly label: string;
  /** Makes the scale from a range in pixels. */
  scale(range: readonly [number, number]): Scale;
  /** Where lines and figures stand, as values; those too close to the one before are left out. */
  ticks(scale: Scale): readonly number[];
  format(value: number): string;
}

interface Props {
  /** Accessible name: what is plotted and what it shows. */
  readonly name: string;
  readonly x: Axis;
  readonly y: Axis;
  /** Height with axes and labels, CSS pixels. */
  readonly height?: number;
  /** Drawn inside the frame, in pixels of the two scales. */
  children(x: Scale, y: Scale): ReactNode;
}

const margin = { top: 30, right: 14, bottom: 50, left: 58 };
/** Least room from one figure of an axis to the next, pixels. */
const APART = { x: 46, y: 24 };

const spaced = (ticks: readonly number[], scale: Scale, apart: number): number[] => {
  const kept: number[] = [];
  for (const tick of ticks) {
    const last = kept.at(-1);
    if (last === undefined || Math.abs(scale(tick) - scale(last)) >= apart) kept.push(tick);
  }
  return kept;
};

export const Plot = ({ name, x: xAxis, y: yAxis, height = 300, children }: Props) => {
  const [box, width] = useWidth<HTMLDivElement>(560);
  const { left, top } = margin;
  const [right, bottom] = [width - margin.right, height - margin.bottom];
  const x = xAxis.scale([left, right]);
  const y = yAxis.scale([bottom, top]);
  return (
    <div ref={box} className={styles['box']}>
      <svg className={styles['plot']} width={width} height={height} role="img" aria-label={name}>
        {spaced(xAxis.ticks(x), x, APART.x).map((tick) => (
          <g key={tick}>
            <line className={styles['grid']} x1={x(tick)} x2={x(tick)} y1={top} y2={bottom} />
            <text x={x(tick)} y={bottom + 18} textAnchor="middle">
              {withMinus(xAxis.format(tick))}
            </text>
          </g>
        ))}
        {spaced(yAxis.ticks(y), y, APART.y).map((tick) => (
          <g key={tick}>
            <line className={styles['grid']} x1={left} x2={right} y1={y(tick)} y2={y(tick)} />
            <text x={left - 8} y={y(tick) + 5} textAnchor="end">
              {withMinus(yAxis.format(tick))}
            </text>
          </g>
        ))}
        <path className={styles['axis']} d={`M${left} ${top}V${bottom}H${right}`} />
        <text className={styles['label']} x={right} y={height - 8} textAnchor="end">
          {xAxis.label}
        </text>
        <text className={styles['label']} x={2} y={16}>
          {yAxis.label}
        </text>
        {children(x, y)}
      </svg>
    </div>
  );
};
