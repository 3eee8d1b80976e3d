/** The page to scale: paper, margins, print, rails and marks. The print is moved by hand or by keys. */
import type { PagePlan } from '../../../core/sheet/page-layout.ts';
import { pageSpecOf, railsOf } from '../../../core/sheet/page-layout.ts';
import { isoDay } from '../../../core/units/day.ts';
import { formatLength } from '../../../core/units/format.ts';
import type { LengthUnit } from '../../../core/units/parse.ts';
import { mm } from '../../../core/units/units.ts';
import { drawnPage } from '../../../job/facts/drawn-page.ts';
import { fitsPage, pageOf, pagePlanOf } from '../../../job/facts/page.ts';
import { sheetSpecOf } from '../../../job/facts/sheet.ts';
import type { Page } from '../../../job/schema/page.ts';
import { FiguresTable, Prose, Stack, ToScale } from '../../../ui/index.ts';
import { useJob, useUnits } from '../../studio.ts';
import { OnPaper, PrinterMargins } from './OnPaper.tsx';
import { KEY_STEP_MM, usePrintDrag } from './use-print-drag.ts';
import styles from './page.module.css';

/** The page as it is planned, and as it is drawn. */
const usePlan = (units: LengthUnit) => {
  const job = useJob();
  const plan = pagePlanOf(job, units, isoDay(new Date()));
  const drawn = drawnPage(pageSpecOf(plan, sheetSpecOf(job)), job);
  return { job, plan, drawn, rails: plan.rails ? railsOf(plan) : [] };
};

type Rails = ReturnType<typeof railsOf>;

interface TableProps {
  readonly plan: PagePlan;
  readonly margins: Page['marginsMm'];
  readonly rails: Rails;
  readonly units: LengthUnit;
}

const PageTable = ({ plan, margins, rails, units }: TableProps) => {
  const { paperWidthMm, paperHeightMm, leftMm, topMm, trimWidthMm, trimHeightMm, bleedMm } = plan;
  const { left, top, right, bottom } = margins;
  const boxes = [
    ['Paper', 0, 0, paperWidthMm, paperHeightMm],
    [
      'What the printer prints',
      left,
      top,
      paperWidthMm - left - right,
      paperHeightMm - top - bottom,
    ],
    ['Print, as trimmed', leftMm, topMm, trimWidthMm, trimHeightMm],
    [
      'Print with its bleed',
      leftMm - bleedMm,
      topMm - bleedMm,
      trimWidthMm + 2 * bleedMm,
      trimHeightMm + 2 * bleedMm,
    ],
    ...rails.map((rail, number) => [
      `Rail ${['left', 'right', 'top', 'bottom'][number] ?? ''}`,
      rail.left,
      rail.top,
      rail.width,
      rail.height,
    ]),
  ] as const;
  const cell = (length: string | number) => formatLength(mm(Number(length)), units);
  return (
    <FiguresTable
      caption="The page in figures"
      head={['Part', ...['Left', 'Top', 'Width', 'Height'].map((name) => `${name}, ${units}`)]}
      rows={boxes.map(([name, ...measures]) => [name, ...measures.map(cell)])}
    />
  );
};

export const PageDrawing = () => {
  const units = useUnits();
  const { job, plan, drawn, rails } = usePlan(units);
  const { moved, handlers } = usePrintDrag(plan, units);
  const [dx, dy] = moved;
  const margins = pageOf(job).marginsMm;
  const { paperWidthMm: width, paperHeightMm: height } = plan;
  const shown = (lengthMm: number) => `${formatLength(mm(lengthMm), units)} ${units}`;
  const leftMm = plan.leftMm + dx;
  const place = `${shown(leftMm)} from the left, ${shown(plan.topMm + dy)} from the top`;
  return (
    <Stack as="figure">
      <ToScale
        className={styles['paper']}
        widthMm={width}
        heightMm={height}
        style={{ aspectRatio: `${width} / ${height}` }}
        role="group"
        aria-label="The page to scale"
      >
        <PrinterMargins of={drawn} margins={margins} />
        <g
          className={styles['print']}
          tabIndex={0}
          role="slider"
          aria-label="Print on the paper"
          aria-valuemin={0}
          aria-valuemax={Math.round(width)}
          aria-valuenow={Math.round(leftMm)}
          aria-valuetext={place}
          transform={`translate(${dx} ${dy})`}
          {...handlers}
        >
          <OnPaper page={drawn} />
        </g>
      </ToScale>
      <Prose as="figcaption">
        Paper {shown(width)} × {shown(height)}, print {place}.{' '}
        {fitsPage(job)
          ? 'Everything fits.'
          : 'Not everything fits: see the findings for what would help.'}{' '}
        Drag the print, or move it with the arrow keys ({shown(KEY_STEP_MM[units])}; with Shift{' '}
        {shown(10 * KEY_STEP_MM[units])}).
      </Prose>
      <PageTable plan={plan} margins={margins} rails={rails} units={units} />
    </Stack>
  );
};
