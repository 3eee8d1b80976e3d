/** One print over several lens sheets (tiles): the split, its drawing, the tiles woven, and how they are laid. */
import { changeTiles, lensSheetOf } from '../../../job/edits/tiles.ts';
import { tilesOf, splitOf } from '../../../job/facts/tiles.ts';
import { printedAround } from '../../../job/facts/page.ts';
import { chosenOf } from '../../../materials/cut-list.ts';
import { Columns, Notice, Stack, SwitchedPanel } from '../../../ui/index.ts';
import { useEdit, useJob, useShelves } from '../../studio.ts';
import { PrintedAround } from '../PrintedAround.tsx';
import { AssemblyPlan } from './AssemblyPlan.tsx';
import { TileFields } from './TileFields.tsx';
import { TileFigures } from './TileFigures.tsx';
import { TilePage } from './TilePage.tsx';
import { TilesDrawing } from './TilesDrawing.tsx';
import { WeaveTiles } from './WeaveTiles.tsx';

export const TilesPanel = () => {
  const change = useEdit(changeTiles);
  const job = useJob();
  const shelves = useShelves((state) => state.shelves);
  const { on } = tilesOf(job);
  const onSwitch = (next: boolean) => {
    const entry = chosenOf(job, shelves).lens;
    const size = job.tiles === undefined && entry !== undefined ? lensSheetOf(entry) : {};
    void change('lens sheets of the print', { on: next, ...size });
  };
  return (
    <SwitchedPanel
      title="One print over several lens sheets (tiles)"
      label="The print lies under"
      choices={['One lens sheet', 'Several, side by side']}
      on={on}
      words="A poster larger than any lens sheet is split into tiles of whole ribs. The pitch stays right across the whole, so the picture turns as one."
      onSwitch={onSwitch}
    >
      <Split />
    </SwitchedPanel>
  );
};

const AroundTiles = () => {
  const job = useJob();
  const { marks } = printedAround(job);
  return (
    <PrintedAround legend="Printed around each tile">
      {!marks && tilesOf(job).overlapMm > 0 && (
        <Notice kind="caution" title="Nothing shows where a tile is cut">
          The overlap goes on as picture: without crop marks only the sizes in the table say where
          the tile ends.
        </Notice>
      )}
    </PrintedAround>
  );
};

const Split = () => {
  const split = splitOf(useJob());
  return (
    <>
      <Columns least={20} gap="4 6">
        <Stack>
          <TileFields split={split} />
          <AroundTiles />
          {split.ok && <TileFigures tiling={split.tiling} />}
        </Stack>
        {split.ok && (
          <Stack gap={4}>
            <TilesDrawing tiling={split.tiling} />
            <TilePage tiling={split.tiling} />
          </Stack>
        )}
      </Columns>
      {split.ok ? (
        <>
          <WeaveTiles />
          {split.tiling.tiles.length > 1 ? (
            <AssemblyPlan tiling={split.tiling} />
          ) : (
            <Notice kind="info">One lens sheet of this size is enough for the whole print.</Notice>
          )}
        </>
      ) : (
        <Notice kind="problem" title="The print cannot be split over these lens sheets">
          {split.message}
        </Notice>
      )}
    </>
  );
};
