/** How the prints lie on a sheet, to scale. */
import { formatLengthRough } from '../../../core/units/format.ts';
import { mm } from '../../../core/units/units.ts';
import type { Cut } from '../../../materials/cut-list.ts';
import type { Job } from '../../../job/schema/job.ts';
import { useUnits } from '../../studio.ts';
import { FiguresTable, ToScale } from '../../../ui/index.ts';
import styles from './money.module.css';

interface Props {
  readonly title: string;
  readonly cut: Cut;
  /** The way the ribs of a lens sheet run as it lies. */
  readonly ribs?: Job['ribs'] | undefined;
}

/** More rectangles than this say no more. */
const MOST_DRAWN = 400;

const Drawn = ({ title, cut, ribs }: Props) => {
  const { widthMm, heightMm, marginMm, gapMm, piece, across, down, pieces } = cut;
  const margin = {
    look: 'edge',
    x: marginMm,
    y: marginMm,
    width: widthMm - 2 * marginMm,
    height: heightMm - 2 * marginMm,
  } as const;
  const prints = Array.from({ length: Math.min(MOST_DRAWN, pieces) }, (_, i) => ({
    look: 'own' as const,
    x: marginMm + (i % across) * (piece.widthMm + gapMm),
    y: marginMm + Math.floor(i / across) * (piece.heightMm + gapMm),
    width: piece.widthMm,
    height: piece.heightMm,
  }));
  const hasMargin = marginMm > 0 && margin.width > 0 && margin.height > 0;
  return (
    <ToScale
      className={styles['sheet']}
      widthMm={widthMm}
      heightMm={heightMm}
      ribs={ribs}
      pieces={hasMargin ? [margin, ...prints] : prints}
      preserveAspectRatio="xMinYMin"
      role="img"
      aria-label={`${title}: ${pieces} ${pieces === 1 ? 'print' : 'prints'}, ${across} across and ${down} down`}
    />
  );
};

export const CutDrawing = ({ title, cut, ribs }: Props) => {
  const units = useUnits();
  const { widthMm, heightMm, marginMm, gapMm, piece, across, down, pieces, turned } = cut;
  const size = (width: number, height: number) =>
    `${formatLengthRough(mm(width), units)} × ${formatLengthRough(mm(height), units)} ${units}`;
  const used = (100 * pieces * piece.widthMm * piece.heightMm) / (widthMm * heightMm);
  return (
    <figure className={styles['figure']}>
      <figcaption>
        {title}, {size(widthMm, heightMm)}
        {turned && ribs === undefined && ', turned'}:{' '}
        {pieces === 0
          ? 'the print does not fit.'
          : `${pieces} ${pieces === 1 ? 'print' : 'prints'}, ${Math.round(used)} % used.`}
      </figcaption>
      <Drawn title={title} cut={cut} ribs={ribs} />
      <FiguresTable
        caption={`${title}, in figures`}
        head={['What', 'Figure']}
        rows={[
          ['Sheet', size(widthMm, heightMm)],
          ['Printer margin', `${formatLengthRough(marginMm, units)} ${units}`],
          ['Print', size(piece.widthMm, piece.heightMm)],
          ['Gap', `${formatLengthRough(gapMm, units)} ${units}`],
          ['Across × down', `${across} × ${down}`],
          ['Used', `${Math.round(used)} %`],
        ]}
      />
    </figure>
  );
};
