/** From the button to the finished file of the whole lens sheet. */
import { formatLengthRough, sayLength, trimmed } from '../../../core/units/format.ts';
import { MM_PER_INCH, mm } from '../../../core/units/units.ts';
import type { GangView } from '../../../job/facts/gang-view.ts';
import { gangPaperOf } from '../../../job/facts/gang-view.ts';
import { gangSizeMm } from '../../../job/facts/gang.ts';
import { aroundOf } from '../../../job/facts/mount/around.ts';
import { sheetDensity } from '../../../job/facts/sheet.ts';
import type { Job } from '../../../job/schema/job.ts';
import { weaveSeveral } from '../../../studio/weave/several.ts';
import { FileTypeField } from '../../desk/FileTypeField.tsx';
import { HeldInMemory } from '../../desk/HeldInMemory.tsx';
import { MakeFile } from '../../desk/MakeFile.tsx';
import { useJob, useStudio, useUnits, useView } from '../../studio.ts';
import { Prose } from '../../../ui/index.ts';
import { MountPart } from '../MountPart.tsx';

const Megadots = () => {
  const job = useJob();
  const units = useUnits();
  const paper = gangPaperOf(job);
  const [widthMm, heightMm] =
    paper === undefined ? gangSizeMm(job) : [paper.widthMm, paper.heightMm];
  const { horizontalDpi, verticalDpi } = sheetDensity(job);
  const dots = (widthMm * horizontalDpi * heightMm * verticalDpi) / MM_PER_INCH ** 2;
  return (
    <Prose>
      {paper === undefined
        ? 'The file is as large as the lens sheet'
        : 'The file is the page set above, with the lens sheet in its middle'}
      : {formatLengthRough(mm(widthMm), units)} × {sayLength(heightMm, units)},{' '}
      {trimmed(dots / 1e6, 1)} megadots. Print at 100 %, no scaling.
      {aroundOf(job).rails &&
        ' The rails lie under the lens, inside its free edge: seen from in front of its middle they are even from end to end when it lies square.'}
    </Prose>
  );
};

interface Props {
  readonly view: GangView;
  readonly others: ReadonlyMap<string, Job> | undefined;
}

export const WeaveGang = ({ view, others }: Props) => {
  const studio = useStudio();
  const saveTo = useView((state) => state.saveTo);
  return (
    <MountPart title="The file">
      <div>
        <FileTypeField />
      </div>
      <HeldInMemory toChosenFile={saveTo === 'chosen-file'} />
      <Megadots />
      <MakeFile
        kind="several"
        name="several prints"
        thing="lens sheet"
        off={view.best.places.length === 0 || others === undefined}
        onWeave={(asked) => void weaveSeveral(studio, others ?? new Map(), asked)}
      />
    </MountPart>
  );
};
