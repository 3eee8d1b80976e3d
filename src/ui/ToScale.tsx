/** A drawing to scale, in millimetres: a ground, lines along its ribs, and the pieces that lie on it. */
import type { ComponentProps } from 'react';
import styles from './ToScale.module.css';

interface Piece {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

interface Props extends ComponentProps<'svg'> {
  readonly widthMm: number;
  readonly heightMm: number;
  /** Room around the ground. */
  readonly rimMm?: number;
  /** The way the ribs run; undefined where the ground has none. */
  readonly ribs?: 'upright' | 'lying' | undefined;
  /** `own` is tinted; `other` in another colour; `outline` bare; `edge` dashed. */
  readonly pieces?: readonly (Piece & { readonly look: 'own' | 'other' | 'outline' | 'edge' })[];
}

const RIBS_DRAWN = 48;

/** Lines that show which way the ribs run; the ribs themselves are too fine. */
const ribLines = (widthMm: number, heightMm: number, upright: boolean): string =>
  Array.from({ length: RIBS_DRAWN - 1 }, (_, i) => {
    const share = (i + 1) / RIBS_DRAWN;
    return upright ? `M${share * widthMm} 0v${heightMm}` : `M0 ${share * heightMm}h${widthMm}`;
  }).join('');

export const ToScale = (props: Props) => {
  const {
    widthMm,
    heightMm,
    rimMm = 0,
    ribs,
    pieces = [],
    className = '',
    children,
    ...svg
  } = props;
  return (
    <svg
      {...svg}
      className={`${styles['drawing']} ${className}`}
      viewBox={[-rimMm, -rimMm, widthMm + 2 * rimMm, heightMm + 2 * rimMm].join(' ')}
    >
      <rect className={styles['ground']} width={widthMm} height={heightMm} />
      {ribs !== undefined && (
        <path className={styles['ribs']} d={ribLines(widthMm, heightMm, ribs === 'upright')} />
      )}
      {pieces.map(({ look, x, y, width, height }, number) => (
        <rect key={number} className={styles[look]} {...{ x, y, width, height }} />
      ))}
      {children}
    </svg>
  );
};
