/** Several prints on one lens sheet: the sheet and what lies on it, drawn, cut and woven. */
import { changeGang } from '../../../job/edits/gang.ts';
import { gangOf } from '../../../job/facts/gang.ts';
import { chosenOf } from '../../../materials/cut-list.ts';
import { Columns, Stack, SwitchedPanel } from '../../../ui/index.ts';
import { useEdit, useJob, useShelves } from '../../studio.ts';
import { PrintedAround } from '../PrintedAround.tsx';
import { CutList } from './CutList.tsx';
import { GangDrawing } from './GangDrawing.tsx';
import { GangFields } from './GangFields.tsx';
import { GangFigures } from './GangFigures.tsx';
import { GangNotices } from './GangNotices.tsx';
import { GuestList } from './GuestList.tsx';
import { WeaveGang } from './WeaveGang.tsx';
import { useOtherJobs } from '../../desk/use-other-jobs.ts';
import { useGangView } from './use-gang.ts';

export const GangPanel = () => {
  const change = useEdit(changeGang);
  const job = useJob();
  const shelves = useShelves((state) => state.shelves);
  const { on } = gangOf(job);
  const onSwitch = (next: boolean) => {
    const entry = job.gang === undefined ? chosenOf(job, shelves).lens : undefined;
    const size =
      entry === undefined ? {} : { lensAcrossMm: entry.widthMm, lensAlongMm: entry.heightMm };
    void change('prints on a lens sheet', { on: next, ...size });
  };
  return (
    <SwitchedPanel
      title="Several prints on one lens sheet"
      label="A lens sheet holds"
      choices={['One print', 'Several prints']}
      on={on}
      words="Small prints are laid side by side under one lens sheet, each on whole ribs of its own, and cut apart when they are stuck down."
      onSwitch={onSwitch}
    >
      <Gang />
    </SwitchedPanel>
  );
};

const Gang = () => {
  const others = useOtherJobs();
  const view = useGangView(others);
  return (
    <>
      <Columns least={20} gap="4 6">
        <Stack>
          <GangFields />
          <PrintedAround
            legend="Printed in the free edge"
            marks="Crop marks for every cut"
            hasSignLine={false}
          />
          <GuestList others={others} />
          <GangNotices view={view} others={others} />
          <GangFigures view={view} />
        </Stack>
        <GangDrawing view={view} />
      </Columns>
      <WeaveGang view={view} others={others} />
      {view.best.cuts.length > 0 && <CutList view={view} />}
    </>
  );
};
