/** The sheet: the button that weaves it, how its columns are filled, and what it will be. */
import { sheetFileTypes } from '../../core/encode/file-types.ts';
import { formatLength, sayLength, trimmed } from '../../core/units/format.ts';
import { mm, mmToLpi } from '../../core/units/units.ts';
import { madeForWords } from '../../job/facts/ghost.ts';
import { pagePlanOf, pageToWeave } from '../../job/facts/page.ts';
import { gridOf } from '../../job/facts/printer.ts';
import { pitchStanding, sheetDensity, sheetSpecOf, viewingPitchOf } from '../../job/facts/sheet.ts';
import type { Job } from '../../job/schema/job.ts';
import { convertedWords } from '../../job/words/colour.ts';
import { edgeWords, mirroredWords } from '../../job/words/printer.ts';
import { canChooseFile } from '../../studio/keep/browser.ts';
import { weaveSheet } from '../../studio/weave/sheet.ts';
import { ChoiceField, Figure, Panel, Prose } from '../../ui/index.ts';
import { FileTypeField } from '../desk/FileTypeField.tsx';
import { HeldInMemory } from '../desk/HeldInMemory.tsx';
import { KeptFold } from '../desk/KeptFold.tsx';
import { MakeFile } from '../desk/MakeFile.tsx';
import { RoomFor } from '../desk/RoomFor.tsx';
import { useChange, useJob, useStudio, useUnits, useView } from '../studio.ts';
import { ColoursChoice, IntentChoice } from './ColoursChoice.tsx';
import styles from './weave.module.css';

const ColumnsChoice = () => {
  const columns = useJob().columns;
  const change = useChange();
  return (
    <div>
      <ChoiceField
        label="Columns"
        choices={[
          { value: 'blended', label: 'Blended' },
          { value: 'crisp', label: 'Crisp' },
        ]}
        value={columns}
        onChange={(value) => change('columns', (job) => ({ ...job, columns: value }))}
      />
      <Prose>
        {columns === 'blended'
          ? 'Each dot is shared by the frames it covers: smoother, and truer under the lens.'
          : 'Each dot belongs to one frame, the one at its middle: harder edges, for flips.'}
      </Prose>
    </div>
  );
};

/** What spoils a good sheet between here and the lens. */
const Advice = ({ job }: { readonly job: Job }) => (
  <Prose>
    {madeForWords(job)} {mirroredWords(job)} {convertedWords(job)} Print at 100 %, no scaling,{' '}
    {edgeWords[gridOf(job).fedFirst]} first, as the pitch strip.
    {pitchStanding(job) === 'nominal' && (
      <>
        {' '}
        The pitch is nominal: <a href="#/calibrate">prove it with a strip</a> before a sheet that
        counts.
      </>
    )}
  </Prose>
);

const FileTypeChoice = () => {
  const fileType = useView((view) => view.fileType);
  return (
    <div>
      <FileTypeField />
      <Prose>{sheetFileTypes[fileType].use}</Prose>
    </div>
  );
};

const SaveToChoice = () => {
  const saveTo = useView((view) => view.saveTo);
  const set = useView((view) => view.set);
  if (!canChooseFile()) return null;
  return (
    <ChoiceField
      label="Save to"
      choices={[
        { value: 'private-disk', label: 'Here, then download' },
        { value: 'chosen-file', label: 'A file I choose' },
      ]}
      value={saveTo}
      onChange={(value) => set({ saveTo: value })}
    />
  );
};

/** Of the whole page where one is woven. */
const dotsOf = (job: Job) => pageToWeave(job, 'mm', '') ?? sheetSpecOf(job);

const SheetFacts = ({ job }: { readonly job: Job }) => {
  const units = useUnits();
  const page = pageToWeave(job, units, '');
  const { widthDots, heightDots } = dotsOf(job);
  const { horizontalDpi, verticalDpi } = sheetDensity(job);
  const pitch = viewingPitchOf(job);
  const { paperWidthMm, paperHeightMm } = pagePlanOf(job);
  const sides =
    page === undefined ? [job.print.widthMm, job.print.heightMm] : [paperWidthMm, paperHeightMm];
  const size = sides.map((side) => formatLength(mm(side), units));
  return (
    <div>
      <Figure
        label="Dots"
        value={`${widthDots} × ${heightDots}`}
        relation={`${size.join(' × ')} ${units} at ${trimmed(horizontalDpi, 2)} × ${trimmed(verticalDpi, 2)} dpi`}
      >
        {trimmed((widthDots * heightDots) / 1e6, 1)} megadots. Only the size is rounded to whole
        dots; the pitch never is.
        {page !== undefined && ' The whole page is woven, with what Mount puts around the picture.'}
      </Figure>
      <Figure
        label="Woven pitch"
        value={`${trimmed(mmToLpi(pitch), 4)} LPI`}
        relation={`${
          job.provedPitch === undefined
            ? 'p_v = p (1 + g₀ / D)'
            : 'p_v = p_read (1 + g₀ / D) / (1 + g₀ / D_read)'
        } = ${trimmed(pitch, 6)} mm`}
        relationNumber={2}
      >
        For an eye {sayLength(job.print.viewingDistanceMm, units)} away; {pitchStanding(job)}.
      </Figure>
    </div>
  );
};

/** Beneath the proof, with what must be known before it is pressed. */
export const WeaveSheet = () => {
  const job = useJob();
  const studio = useStudio();
  const saveTo = useView((view) => view.saveTo);
  const { widthDots, heightDots } = dotsOf(job);
  return (
    <>
      <RoomFor dots={widthDots * heightDots} />
      <HeldInMemory toChosenFile={saveTo === 'chosen-file'} />
      <MakeFile kind="sheet" name="sheet" onWeave={(asked) => void weaveSheet(studio, asked)} />
      <Advice job={job} />
    </>
  );
};

export const SheetPanel = () => (
  <Panel title="The sheet">
    <div className={styles['choices']}>
      <ColumnsChoice />
      <FileTypeChoice />
      <ColoursChoice />
    </div>
    <KeptFold name="weave sheet" summary="Where it is saved, and its figures">
      <SaveToChoice />
      <IntentChoice />
      <SheetFacts job={useJob()} />
    </KeptFold>
  </Panel>
);
