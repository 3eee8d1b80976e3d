/** How the prints lie on a sheet, to scale. */
import { formatLengthRough } from '../../../core/units/format.ts';
import { mm } from '../../../core/units/units.ts';
import type { Cut } from '../../../materials/cut-list.ts';
import type { Job } from '../../../job/schema/job.ts';
import { useView } from '../../studio.ts';
import { FiguresTable } from '../../../ui/index.ts';
import styles from './money.module.css';

interface Props {
  readonly title: string;
  readonly cut: Cut;
  /** The way the ribs of a lens sheet run as it lies. */
  readonly ribs?: Job['ribs'];
}

/** More rectangles than this say no more. */
const MOST_DRAWN = 400;

const RIBS_DRAWN = 40;

/** Lines that show which way the ribs run; the ribs themselves are too fine. */
const ribLines = ({ widthMm, heightMm }: Cut, ribs: Job['ribs']): string =>
  Array.from({ length: RIBS_DRAWN - 1 }, (_, i) => {
    const share = (i + 1) / RIBS_DRAWN;
    return ribs === 'upright'
      ? `M${share * widthMm} 0v${heightMm}`
      : `M0 ${share * heightMm}h${widthMm}`;
  }).join('');

const Drawn = ({ title, cut, ribs }: Props) => {
  const { widthMm, heightMm, marginMm, gapMm, piece, across, down, pieces } = cut;
  const places = Array.from({ length: Math.min(MOST_DRAWN, pieces) }, (_, i) => ({
    x: marginMm + (i % across) * (piece.widthMm + gapMm),
    y: marginMm + Math.floor(i / across) * (piece.heightMm + gapMm),
  }));
  return (
    <svg
      className={styles['sheet']}
      viewBox={`0 0 ${widthMm} ${heightMm}`}
      preserveAspectRatio="xMinYMin"
      role="img"
      aria-label={`${title}: ${pieces} ${pieces === 1 ? 'print' : 'prints'}, ${across} across and ${down} down`}
    >
      <rect className={styles['ground']} width={widthMm} height={heightMm} />
      {ribs !== undefined && <path className={styles['ribs']} d={ribLines(cut, ribs)} />}
      {marginMm > 0 && 2 * marginMm < Math.min(widthMm, heightMm) && (
        <rect
          className={styles['margin']}
          x={marginMm}
          y={marginMm}
          width={widthMm - 2 * marginMm}
          height={heightMm - 2 * marginMm}
        />
      )}
      {places.map(({ x, y }) => (
        <rect
          key={`${x} ${y}`}
          className={styles['piece']}
          x={x}
          y={y}
          width={piece.widthMm}
          height={piece.heightMm}
        />
      ))}
    </svg>
  );
};

export const CutDrawing = ({ title, cut, ribs }: Props) => {
  const units = useView((view) => view.units);
  const { widthMm, heightMm, marginMm, gapMm, piece, across, down, pieces, turned } = cut;
  const size = (width: number, height: number) =>
    `${formatLengthRough(mm(width), units)} × ${formatLengthRough(mm(height), units)} ${units}`;
  const used = (100 * pieces * piece.widthMm * piece.heightMm) / (widthMm * heightMm);
  return (
    <figure className={styles['figure']}>
      <figcaption>
        {title}, {size(widthMm, heightMm)}
        {turned && ribs === undefined && ', on its side'}:{' '}
        {pieces === 0
          ? 'the print does not fit.'
          : `${pieces} ${pieces === 1 ? 'print' : 'prints'}, ${Math.round(used)} % used.`}
      </figcaption>
      <Drawn title={title} cut={cut} {...(ribs === undefined ? {} : { ribs })} />
      <FiguresTable
        caption={`${title}, in figures`}
        head={['What', 'Figure']}
        rows={[
          ['Sheet', size(widthMm, heightMm)],
          ['Blank at the edges', `${formatLengthRough(marginMm, units)} ${units}`],
          ['Print', size(piece.widthMm, piece.heightMm)],
          ['Room between', `${formatLengthRough(gapMm, units)} ${units}`],
          ['Across × down', `${across} × ${down}`],
          ['Used', `${Math.round(used)} %`],
        ]}
      />
    </figure>
  );
};
