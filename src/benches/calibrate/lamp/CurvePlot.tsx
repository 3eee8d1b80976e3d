/** The three channels' curves: what a code is printed as over the lamp. */
import { lampColour } from '../../../core/colour/lamp-target.ts';
import type { LampCurve } from '../../../core/colour/lamp.ts';
import { FiguresTable } from '../../../ui/index.ts';
import styles from './lamp.module.css';

const SIZE = 320;
const LEFT = 44;
const BOTTOM = 40;
const TOP = 10;

const channels = ['Red', 'Green', 'Blue'] as const;
const dashes = ['none', '8 5', '2 5'] as const;

const greyAt = (code: number, curve: LampCurve) => lampColour([code, code, code], curve);
const x = (code: number) => LEFT + (code / 255) * SIZE;
const y = (code: number) => TOP + SIZE - (code / 255) * SIZE;

const pathOf = (curve: LampCurve, channel: number) =>
  Array.from({ length: 52 }, (_, i) => {
    const code = i * 5;
    const printed = greyAt(code, curve)[channel] as number;
    return `${i === 0 ? 'M' : 'L'}${x(code).toFixed(1)} ${y(printed).toFixed(1)}`;
  }).join('');

export const CurvePlot = ({ curve }: { readonly curve: LampCurve }) => (
  <figure className={styles['plot']}>
    <svg
      viewBox={`0 0 ${LEFT + SIZE + 12} ${TOP + SIZE + BOTTOM}`}
      role="img"
      aria-label={`Curves of red, green and blue for density ${curve.density} and warmth ${curve.warmth}; the table below has their figures.`}
    >
      {[0, 64, 128, 192, 255].map((code) => (
        <g key={code}>
          <line className={styles['grid']} x1={x(code)} x2={x(code)} y1={y(255)} y2={y(0)} />
          <line className={styles['grid']} x1={x(0)} x2={x(255)} y1={y(code)} y2={y(code)} />
          <text x={x(code)} y={y(0) + 18} textAnchor="middle">
            {code}
          </text>
          <text x={x(0) - 6} y={y(code) + 5} textAnchor="end">
            {code}
          </text>
        </g>
      ))}
      <line className={styles['as-is']} x1={x(0)} y1={y(0)} x2={x(255)} y2={y(255)} />
      {channels.map((name, channel) => (
        <path
          key={name}
          className={styles[name.toLowerCase()]}
          d={pathOf(curve, channel)}
          strokeDasharray={dashes[channel]}
        />
      ))}
      <text x={x(128)} y={TOP + SIZE + 36} textAnchor="middle">
        code of the picture
      </text>
    </svg>
    <figcaption>
      Code printed over code of the picture, 8-bit sRGB: red solid, green dashed, blue dotted. The
      thin line is a print for light that falls on it.
    </figcaption>
    <FiguresTable
      caption="The curves in figures"
      head={['Code of the picture', ...channels]}
      rows={[0, 32, 64, 96, 128, 160, 192, 224, 255].map((code) => [code, ...greyAt(code, curve)])}
    />
  </figure>
);
