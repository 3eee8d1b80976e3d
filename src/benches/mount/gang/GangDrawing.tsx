/** The lens sheet to scale: its prints, and the cuts by their numbers. */
import { useMemo } from 'react';
import { isoDay } from '../../../core/units/day.ts';
import { formatLengthRough } from '../../../core/units/format.ts';
import { mm } from '../../../core/units/units.ts';
import type { CutLine } from '../../../job/facts/gang-cut-list.ts';
import { cutLines } from '../../../job/facts/gang-cut-list.ts';
import { cutLabels, drawnBoxes, drawnCuts } from '../../../job/facts/gang-drawing.ts';
import { drawnPage } from '../../../job/facts/drawn-page.ts';
import { gangToWeave } from '../../../job/facts/gang-view.ts';
import { isMirrored } from '../../../job/facts/printer.ts';
import type { GangView } from '../../../job/facts/gang-view.ts';
import { gangSizeMm } from '../../../job/facts/gang.ts';
import { FiguresTable, Prose, Stack, ToScale } from '../../../ui/index.ts';
import { useWidth } from '../../../ui/plot/index.ts';
import { useJob, useUnits } from '../../studio.ts';
import { Around } from '../page/OnPaper.tsx';
import styles from './gang.module.css';

/** Room for the numbers of the cuts through the whole sheet, CSS pixels. */
const RIM = 26;
const MOST_HEIGHT = 620;

export const GangDrawing = ({ view }: { readonly view: GangView }) => {
  const job = useJob();
  const units = useUnits();
  const [box, width] = useWidth<HTMLDivElement>(480);
  const [widthMm, heightMm] = gangSizeMm(job);
  const scale = Math.min((width - 2 * RIM) / widthMm, MOST_HEIGHT / heightMm);
  const px = 1 / scale;
  const rimMm = RIM * px;
  const upright = job.ribs === 'upright';
  const boxes = drawnBoxes(view, upright);
  const lines: readonly CutLine[] = cutLines(job, view);
  const cuts = drawnCuts(view, upright);
  const labels = cutLabels(cuts, lines, scale);
  const length = (value: number) => formatLengthRough(mm(value), units);
  const page = useMemo(
    () => drawnPage(gangToWeave(job, view, units, isoDay(new Date())).page, job),
    [job, view, units],
  );
  const waste = Math.round(100 * view.best.wasteShare);
  return (
    <Stack as="figure">
      <div ref={box}>
        <ToScale
          className={styles['drawing']}
          widthMm={widthMm}
          heightMm={heightMm}
          rimMm={rimMm}
          ribs={job.ribs}
          pieces={boxes.map((one) => ({ ...one, look: one.own ? 'own' : 'other' }))}
          width={(widthMm + 2 * rimMm) * scale}
          height={(heightMm + 2 * rimMm) * scale}
          role="img"
          aria-label={`Lens sheet with ${boxes.length} prints and ${cuts.length} numbered cuts, ${waste} % waste`}
        >
          <g
            className={styles['free']}
            transform={`translate(${-page.trim.left} ${-page.trim.top})`}
          >
            <Around rails={page.rails} inkPath={page.inkPath} />
          </g>
          {cuts.map(({ whole, x1, x2, y1, y2 }, number) => (
            <line
              key={number}
              className={whole ? styles['cutWhole'] : styles['cut']}
              {...{ x1, x2, y1, y2 }}
            />
          ))}
          <g className={styles['numbers']} transform={`scale(${px})`}>
            {labels.map(({ x, y, text }) => (
              <text key={text} x={x} y={y}>
                {text}
              </text>
            ))}
          </g>
        </ToScale>
      </div>
      <Prose as="figcaption">
        Lens sheet {length(widthMm)} × {length(heightMm)} {units},{' '}
        {isMirrored(job) ? 'as seen from the front' : 'as the file shows it'}. Solid lines are cut
        first, through the whole sheet; dashed ones after, through the strips. Each print keeps its
        ribs the same way as the sheet’s.
      </Prose>
      <FiguresTable
        caption="The prints in figures"
        head={[
          'Print',
          'Job',
          ...['Left', 'Top', 'Width', 'Height'].map((name) => `${name}, ${units}`),
          'Ribs',
        ]}
        rows={boxes.map(({ x, y, width: w, height: h, name, fromRib, toRib }, number) => [
          number + 1,
          name,
          ...[x, y, w, h].map(length),
          `${fromRib} to ${toRib}`,
        ])}
      />
    </Stack>
  );
};
