/** The loupe: the woven dots at 1:1 or larger, anywhere on the sheet, without weaving all of it. */
import type { PointerEvent } from 'react';
import { useMemo, useState } from 'react';
import { trimmed } from '../../core/units/format.ts';
import { plainMeasure } from '../../core/units/measure.ts';
import { MM_PER_INCH } from '../../core/units/units.ts';
import { columnMap } from '../../core/weave/column-map.ts';
import type { SheetSpec } from '../../core/weave/sheet-spec.ts';
import { framesInSlots, sheetDensity, sheetSpecOf } from '../../job/facts/sheet.ts';
import { dotFacts } from '../../preview/loupe-view.ts';
import { Button, ChoiceField, MeasureField, Panel } from '../../ui/index.ts';
import { useJob, useView, useWork } from '../studio.ts';
import { LoupeDots } from './LoupeDots.tsx';
import { useMiddle } from './use-middle.ts';
import styles from './weave.module.css';

const zooms = ['1', '2', '4', '8'] as const;
type Zoom = (typeof zooms)[number];

const SheetMap = ({ sheet }: { readonly sheet: SheetSpec }) => {
  const job = useJob();
  const middle = useMiddle(sheet);
  const thumbnails = useWork((work) => work.thumbnails);
  const inSlots = framesInSlots(job);
  const picture = thumbnails.get(inSlots[Math.floor(inSlots.length / 2)]?.id ?? '');
  const jump = (event: PointerEvent<HTMLDivElement>) => {
    const box = event.currentTarget.getBoundingClientRect();
    middle.moveTo(
      ((event.clientX - box.left) / box.width) * sheet.widthDots,
      ((event.clientY - box.top) / box.height) * sheet.heightDots,
    );
  };
  // By pointer only: keys move the dots themselves, and the fields below take numbers.
  return (
    <div
      className={styles['map']}
      style={{ aspectRatio: `${job.print.widthMm} / ${job.print.heightMm}`, width: '100%' }}
      aria-hidden="true"
      data-testid="sheet-map"
      onPointerDown={jump}
    >
      {picture !== undefined && <img src={picture} alt="" />}
      <div
        className={styles['window']}
        style={{
          left: `${(middle.x / sheet.widthDots) * 100}%`,
          top: `${(middle.y / sheet.heightDots) * 100}%`,
        }}
      />
    </div>
  );
};

const wholeDots = plainMeasure(1, 0);

/** Where the loupe is, by numbers: dots counted from 1, as the readout counts them. */
const Position = ({ sheet }: { readonly sheet: SheetSpec }) => {
  const middle = useMiddle(sheet);
  const refusal = (dot: number, dots: number) =>
    Number.isInteger(dot) && dot >= 1 && dot <= dots
      ? undefined
      : `Type a whole number from 1 to ${dots}.`;
  const onCommitColumn = (dot: number) => {
    const refused = refusal(dot, sheet.widthDots);
    if (refused === undefined) middle.moveTo(dot - 0.5, middle.y);
    return refused;
  };
  const onCommitRow = (dot: number) => {
    const refused = refusal(dot, sheet.heightDots);
    if (refused === undefined) middle.moveTo(middle.x, dot - 0.5);
    return refused;
  };
  return (
    <div className={styles['position']}>
      <MeasureField
        label="Dot from the left"
        value={middle.column + 1}
        measure={wholeDots}
        onCommit={onCommitColumn}
      />
      <MeasureField
        label="Dot from the top"
        value={middle.row + 1}
        measure={wholeDots}
        onCommit={onCommitRow}
      />
    </div>
  );
};

const Readout = ({ sheet }: { readonly sheet: SheetSpec }) => {
  const job = useJob();
  const { column, row } = useMiddle(sheet);
  const map = useMemo(() => columnMap(sheet), [sheet]);
  const { horizontalDpi, verticalDpi } = sheetDensity(job);
  const { lenticule, place, shares } = dotFacts(sheet, map, job.ribs === 'upright' ? column : row);
  const units = useView((view) => view.units);
  const from = (dots: number, dpi: number) =>
    units === 'mm'
      ? trimmed(((dots + 0.5) * MM_PER_INCH) / dpi, 2)
      : trimmed((dots + 0.5) / dpi, 4);
  const side = job.ribs === 'upright' ? ['left', 'right'] : ['above', 'below'];
  const counted =
    lenticule === 0
      ? 'the middle one'
      : `${Math.abs(lenticule)} ${lenticule < 0 ? side[0] : side[1]}${job.ribs === 'upright' ? ' of' : ''} the middle one`;
  return (
    <dl className={styles['readout']}>
      <dt>Dot</dt>
      <dd>
        {column + 1} from the left, {row + 1} from the top ({from(column, horizontalDpi)} ×{' '}
        {from(row, verticalDpi)} {units})
      </dd>
      <dt>Lenticule</dt>
      <dd>
        {counted}; place {trimmed(place, 3)} under the rib
      </dd>
      <dt>Shows</dt>
      <dd>
        {shares
          .map(({ slot, share }) => `slot ${slot} (${trimmed(share * 100, 0)} %)`)
          .join(' and ')}
      </dd>
    </dl>
  );
};

export const LoupePanel = () => {
  const job = useJob();
  const sheet = useMemo(() => sheetSpecOf(job), [job]);
  const [zoom, setZoom] = useState<Zoom>('4');
  const [showRibs, setShowRibs] = useState(true);
  return (
    <Panel
      title="Loupe"
      actions={
        <div className={styles['buttons']}>
          <ChoiceField<Zoom>
            compact
            label="Enlarged"
            choices={zooms.map((value) => ({ value, label: `${value}:1` }))}
            value={zoom}
            onChange={setZoom}
          />
          <Button aria-pressed={showRibs} onClick={() => setShowRibs(!showRibs)}>
            Show ribs
          </Button>
        </div>
      }
    >
      <div className={styles['loupe']}>
        <div>
          <LoupeDots sheet={sheet} zoom={Number(zoom)} showRibs={showRibs} />
        </div>
        <SheetMap sheet={sheet} />
      </div>
      <div className={styles['where']}>
        <Position sheet={sheet} />
        <Readout sheet={sheet} />
      </div>
    </Panel>
  );
};
