/** Which lens for this printer, which printer for this lens: what each pair holds and what it loses. */
import { useMemo, useState } from 'react';
import { plainMeasure } from '../../../core/units/measure.ts';
import { sayLength, trimmed } from '../../../core/units/format.ts';
import type { Job } from '../../../job/schema/job.ts';
import { useJob, useShelves, useUnits, useView } from '../../studio.ts';
import { ChoiceField, MeasureField, Panel, Prose, Row } from '../../../ui/index.ts';
import { layPair, sayPair, slotsFor } from '../../../materials/lay-pair.ts';
import { OwnCounts } from './OwnCounts.tsx';
import type { Row as Pair, PairsShown, Sorting } from '../../../materials/pairs.ts';
import {
  allRows,
  withShelves,
  gradeWords,
  isOwnPair,
  sayWhatSuits,
  shownRows,
  sortRows,
} from '../../../materials/pairs.ts';
import { PairTable } from './PairTable.tsx';
import styles from './pairs.module.css';
import { useToldApart } from './use-told-apart.ts';
import { ToldRegion, useTold } from './use-told.tsx';

const shownChoices: readonly { value: PairsShown; label: string }[] = [
  { value: 'lenses', label: 'Lenses that suit my printer' },
  { value: 'printers', label: 'Printers that suit my lens' },
  { value: 'all', label: 'All pairs' },
];

const wantedMeasure = plainMeasure(1, 0, 'frames');

const Filters = () => {
  const shown = useView((view) => view.pairsShown);
  const wanted = useView((view) => view.framesWanted);
  const setView = useView((view) => view.set);
  return (
    <Row gap="3 5" align="start">
      <ChoiceField
        label="Show"
        choices={shownChoices}
        value={shown}
        onChange={(pairsShown) => setView({ pairsShown })}
      />
      <MeasureField
        label="Frames wanted"
        value={wanted}
        measure={wantedMeasure}
        hint="2 for a flip, 6 or more for depth (common practice)"
        onCommit={(value) => {
          if (!Number.isInteger(value) || value < 2 || value > 200)
            return 'Frames wanted must be a whole number from 2 to 200.';
          setView({ framesWanted: value });
          return undefined;
        }}
      />
    </Row>
  );
};

/** Said before the button is pressed, for the job as it stands. */
const Beforehand = ({ job }: { readonly job: Job }) => {
  const goes = [
    ...(job.provedPitch === undefined ? [] : ['the proved pitch']),
    ...(job.lens.radiusMm === undefined ? [] : ['the rib radius']),
    ...(job.lens.supplierAngleDeg === undefined ? [] : ['the supplier’s angle']),
  ];
  return (
    <Prose>
      “Use” sets lens pitch, dots across and view slots. Of another lens only the pitch is known, so
      its thickness is put in proportion
      {goes.length > 0 && `, and ${goes.join(', ')} of the old one let go`}. It can be undone.
    </Prose>
  );
};

const OwnPair = ({ row }: { readonly row: Pair | undefined }) =>
  row === undefined ? null : (
    <p>
      <strong>Your pair</strong>, {trimmed(row.lpi, 3)} LPI over {trimmed(row.dpi, 2)} dpi:{' '}
      {trimmed(row.dots, 2)} dots per nominal rib, {row.wholeFrames} whole frames,{' '}
      {trimmed(100 * row.lost, 1)} % lost: {gradeWords[row.grade]}.
    </p>
  );

const HowToRead = ({ job }: { readonly job: Job }) => {
  const units = useUnits();
  return (
    <details className={styles['reading']}>
      <summary>How to read the table</summary>
      <p>
        Dots per nominal rib are dpi / LPI, as lens and printer are sold (optics, relation 8). Whole
        frames have a dot each; what is left over is shared between two frames and is lost to both.
        Nothing over: at most 0.2 %, which paper and driver stretch anyway. Little shared: at most 5
        %, our choice. A pair suits when at most little is shared and the frames wanted have a dot
        each.
      </p>
      <p>
        Told apart is an estimate: traced for a lens in proportion to yours, in focus, of index{' '}
        {trimmed(job.lens.index, 4)}, from {sayLength(job.print.viewingDistanceMm, units)}. A real
        sheet may be thicker or softer; put its own numbers on the job sheet before you buy.
      </p>
      <p>
        Ribs across is what a coarse lens costs: each rib is one point of the picture over the width
        of this print. Lenses and printers on your shelves are in the table too. An LPI as it is
        sold is nominal; prove the pitch once the lens is there.
      </p>
    </details>
  );
};

const usePairs = (job: Job, sorting: Sorting) => {
  const ownLenses = useView((view) => view.ownLensCounts);
  const ownGrids = useView((view) => view.ownPrinterGrids);
  const shelves = useShelves((state) => state.shelves);
  const framesWanted = useView((view) => view.framesWanted);
  const shown = useView((view) => view.pairsShown);
  const rows = useMemo(
    () =>
      allRows(
        job,
        withShelves({ lensCounts: ownLenses, printerGrids: ownGrids }, shelves),
        framesWanted,
      ),
    [job, ownLenses, ownGrids, shelves, framesWanted],
  );
  const some = useMemo(() => shownRows(rows, shown), [rows, shown]);
  const told = useToldApart(job, some);
  const sorted = useMemo(() => sortRows(some, sorting, told), [some, sorting, told]);
  return { rows, shown, sorted, told };
};

export const PairsPanel = () => {
  const units = useUnits();
  const job = useJob();
  const [sorting, setSorting] = useState<Sorting>({ column: 'lens', falling: false });
  const { rows, shown, sorted, told } = usePairs(job, sorting);
  const { told: said, act } = useTold();
  const use = (row: Pair) =>
    act(
      ['lens and printer', (now) => layPair(now, row, slotsFor(row, told.get(row.id)))],
      (before, after) => sayPair(row, before, after, units),
    );
  return (
    <Panel title="Lenses and printers">
      <OwnPair row={rows.find(isOwnPair)} />
      <Filters />
      <p role="status" className={styles['suits']}>
        {sayWhatSuits(rows, shown)}
      </p>
      <Beforehand job={job} />
      <PairTable rows={sorted} told={told} sorting={sorting} onSort={setSorting} onUse={use} />
      <ToldRegion told={said} />
      <OwnCounts />
      <HowToRead job={job} />
    </Panel>
  );
};
