/** The page to scale: paper, margins, print, rails and marks. The print is moved by hand or by keys. */
import type { KeyboardEvent, PointerEvent } from 'react';
import { useState } from 'react';
import type { PageBox } from '../../../core/sheet/page-spec.ts';
import { pageSpecOf, railsOf } from '../../../core/sheet/page-layout.ts';
import { formatLength } from '../../../core/units/format.ts';
import { MM_PER_INCH, mm } from '../../../core/units/units.ts';
import { fitsPage, pageOf, pagePlanOf } from '../../../job/facts/page.ts';
import { sheetDensity, sheetSpecOf } from '../../../job/facts/sheet.ts';
import { useJob, useView } from '../../../state/hooks.ts';
import { FiguresTable } from '../../../ui/index.ts';
import { movePrint } from '../../../job/edits/page.ts';
import styles from './page.module.css';

const steps: Readonly<Record<string, readonly [number, number]>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
};

/** What a key moves the print by: a round length in either unit. */
const stepMm = { mm: 1, in: 0.05 * MM_PER_INCH } as const;

/** What of the page moves with the print, in millimetres. */
const useDrawn = (units: 'mm' | 'in') => {
  const job = useJob();
  // ISO 8601's way of writing dates is Sweden's.
  const plan = pagePlanOf(job, units, new Date().toLocaleDateString('sv-SE'));
  const { horizontalDpi, verticalDpi } = sheetDensity(job);
  const { ink } = pageSpecOf(plan, sheetSpecOf(job));
  const [x, y] = [MM_PER_INCH / horizontalDpi, MM_PER_INCH / verticalDpi];
  const path = (box: PageBox) =>
    `M${box.left * x} ${box.top * y}H${box.right * x}V${box.bottom * y}H${box.left * x}Z`;
  return { job, plan, inkPath: ink.map(path).join(''), rails: plan.rails ? railsOf(plan) : [] };
};

export const PageDrawing = () => {
  const units = useView((view) => view.units);
  const { job, plan, inkPath, rails } = useDrawn(units);
  const [drag, setDrag] = useState<{ x: number; y: number; dx: number; dy: number }>();
  const { left, top, right, bottom } = pageOf(job).marginsMm;
  const { paperWidthMm: width, paperHeightMm: height, bleedMm } = plan;
  const at = (event: PointerEvent<SVGElement>) => {
    const box = event.currentTarget.ownerSVGElement?.getBoundingClientRect();
    // The paper keeps its shape within the drawing, whichever side is the tighter one.
    const perMm = Math.min((box?.width ?? width) / width, (box?.height ?? height) / height);
    return { x: event.clientX / perMm, y: event.clientY / perMm };
  };
  const finish = (event: PointerEvent<SVGElement>) => {
    if (drag === undefined) return;
    setDrag(undefined);
    if (event.type === 'pointerup' && (drag.dx !== 0 || drag.dy !== 0))
      movePrint(drag.dx, drag.dy, 'drag');
  };
  const press = (event: KeyboardEvent) => {
    const step = steps[event.key];
    if (step === undefined) return;
    event.preventDefault();
    const size = stepMm[units] * (event.shiftKey ? 10 : 1);
    movePrint(step[0] * size, step[1] * size, 'key');
  };
  const shown = (lengthMm: number) => `${formatLength(mm(lengthMm), units)} ${units}`;
  const leftMm = plan.leftMm + (drag?.dx ?? 0);
  const cell = (lengthMm: number) => formatLength(mm(lengthMm), units);
  const boxes = [
    ['Paper', 0, 0, width, height],
    ['What the printer prints', left, top, width - left - right, height - top - bottom],
    ['Print, as trimmed', plan.leftMm, plan.topMm, plan.trimWidthMm, plan.trimHeightMm],
    [
      'Print with its bleed',
      plan.leftMm - bleedMm,
      plan.topMm - bleedMm,
      plan.trimWidthMm + 2 * bleedMm,
      plan.trimHeightMm + 2 * bleedMm,
    ],
    ...rails.map((rail, number) => [
      `Rail ${['left', 'right', 'top', 'bottom'][number] ?? ''}`,
      rail.left,
      rail.top,
      rail.width,
      rail.height,
    ]),
  ] as const;
  const place = `${shown(leftMm)} from the left, ${shown(plan.topMm + (drag?.dy ?? 0))} from the top`;
  return (
    <figure className={styles['figure']}>
      <svg
        className={styles['paper']}
        viewBox={`0 0 ${width} ${height}`}
        style={{ aspectRatio: `${width} / ${height}` }}
        role="group"
        aria-label="The page to scale"
      >
        <rect className={styles['white']} width={width} height={height} />
        <rect
          className={styles['margin']}
          x={left}
          y={top}
          width={Math.max(0, width - left - right)}
          height={Math.max(0, height - top - bottom)}
        />
        <g
          className={styles['print']}
          tabIndex={0}
          role="slider"
          aria-label="Print on the paper"
          aria-valuemin={0}
          aria-valuemax={Math.round(width)}
          aria-valuenow={Math.round(leftMm)}
          aria-valuetext={place}
          transform={`translate(${drag?.dx ?? 0} ${drag?.dy ?? 0})`}
          onKeyDown={press}
          onPointerDown={(event) => {
            event.currentTarget.setPointerCapture(event.pointerId);
            setDrag({ ...at(event), dx: 0, dy: 0 });
          }}
          onPointerMove={(event) => {
            if (drag === undefined) return;
            const now = at(event);
            setDrag({ ...drag, dx: now.x - drag.x, dy: now.y - drag.y });
          }}
          onPointerUp={finish}
          onPointerCancel={finish}
        >
          <rect
            className={styles['bleed']}
            x={plan.leftMm - bleedMm}
            y={plan.topMm - bleedMm}
            width={plan.trimWidthMm + 2 * bleedMm}
            height={plan.trimHeightMm + 2 * bleedMm}
          />
          <rect
            className={styles['trim']}
            x={plan.leftMm}
            y={plan.topMm}
            width={plan.trimWidthMm}
            height={plan.trimHeightMm}
          />
          {rails.map((rail) => (
            <rect
              key={`${rail.left} ${rail.top}`}
              className={styles['rail']}
              x={rail.left}
              y={rail.top}
              width={rail.width}
              height={rail.height}
            />
          ))}
          <path className={styles['ink']} d={inkPath} />
        </g>
      </svg>
      <figcaption className={styles['soft']}>
        Paper {shown(width)} × {shown(height)}, print {place}.{' '}
        {fitsPage(job)
          ? 'Everything fits.'
          : 'Not everything fits: see the findings for what would help.'}{' '}
        Drag the print, or move it with the arrow keys ({shown(stepMm[units])}; with Shift{' '}
        {shown(10 * stepMm[units])}).
      </figcaption>
      <FiguresTable
        caption="The page in figures"
        head={['Part', ...['Left', 'Top', 'Width', 'Height'].map((name) => `${name}, ${units}`)]}
        rows={boxes.map(([name, ...measures]) => [name, ...measures.map((of) => cell(Number(of)))])}
      />
    </figure>
  );
};
