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
import { Button, ChoiceField, MeasureField, Panel, Row } from '../../ui/index.ts';
import { useJob, useThumbnail, useUnits } from '../studio.ts';
import { LoupeDots } from './LoupeDots.tsx';
import { PrintLook } from './PrintLook.tsx';
import { useMiddle } from './use-middle.ts';
import styles from './weave.module.css';

const zooms = ['1', '2', '4', '8'] as const;
type Zoom = (typeof zooms)[number];

const SheetMap = ({ sheet }: { readonly sheet: SheetSpec }) => {
  const job = useJob();
  const middle = useMiddle(sheet);
  const inSlots = framesInSlots(job);
  const picture = useThumbnail(inSlots[Math.floor(inSlots.length / 2)]);
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
  const take = (dots: number, move: (to: number) => void) => (dot: number) => {
    if (!(Number.isInteger(dot) && dot >= 1 && dot <= dots))
      return `Type a whole number from 1 to ${dots}.`;
    move(dot - 0.5);
    return undefined;
  };
  return (
    <div className={styles['position']}>
      <MeasureField
        label="Dot from the left"
        value={middle.column + 1}
        measure={wholeDots}
        onCommit={take(sheet.widthDots, (x) => middle.moveTo(x, middle.y))}
      />
      <MeasureField
        label="Dot from the top"
        value={middle.row + 1}
        measure={wholeDots}
        onCommit={take(sheet.heightDots, (y) => middle.moveTo(middle.x, y))}
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
  const units = useUnits();
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
        <Row>
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
        </Row>
      }
    >
      <div className={styles['loupe']}>
        <div>
          <LoupeDots sheet={sheet} zoom={Number(zoom)} showRibs={showRibs} />
        </div>
        <SheetMap sheet={sheet} />
      </div>
      <PrintLook />
      <Row gap="4 5" align="start">
        <Position sheet={sheet} />
        <Readout sheet={sheet} />
      </Row>
    </Panel>
  );
};
