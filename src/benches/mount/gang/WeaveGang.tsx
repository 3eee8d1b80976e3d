/** From the button to the finished file of the whole lens sheet. */
import type { SheetFileType } from '../../../core/encode/file-types.ts';
import { sheetFileTypes } from '../../../core/encode/file-types.ts';
import { MM_PER_INCH } from '../../../core/units/units.ts';
import { trimmed } from '../../../core/units/format.ts';
import type { GangView } from '../../../job/gang.ts';
import { gangPaperOf, gangSizeMm } from '../../../job/gang.ts';
import type { Job } from '../../../job/job.ts';
import { sheetDensity } from '../../../job/selectors.ts';
import { useJob, useView, useWork } from '../../../state/hooks.ts';
import type { WeaveState } from '../../../state/work.ts';
import {
  Button,
  ChoiceField,
  HeldFocus,
  Notice,
  ProgressBar,
  buttonClass,
} from '../../../ui/index.ts';
import { HeldInMemory } from '../../desk/HeldInMemory.tsx';
import { stopGang, weaveGang } from './run.ts';
import styles from './gang.module.css';

const fileTypes = (Object.keys(sheetFileTypes) as SheetFileType[]).map((value) => ({
  value,
  label: sheetFileTypes[value].label,
}));

const fileSize = (bytes: number): string =>
  bytes < 1e6 ? `${Math.ceil(bytes / 1e3)} kB` : `${trimmed(bytes / 1e6, 1)} MB`;

const Ended = ({ gang }: { readonly gang: WeaveState }) => {
  if (gang.stage === 'stopped')
    return <Notice kind="info">Stopped. Nothing was kept of the unfinished file.</Notice>;
  if (gang.stage === 'failed')
    return (
      <Notice kind="problem" title="The gang was not woven">
        {gang.message}
      </Notice>
    );
  if (gang.stage !== 'woven') return null;
  return (
    <div className={styles['part']}>
      {gang.stale && (
        <Notice kind="caution" title="The job has changed since">
          This file shows the prints as they were. Weave it again before you print.
        </Notice>
      )}
      {gang.href === undefined ? (
        <p>
          Saved as <strong>{gang.fileName}</strong>.
        </p>
      ) : (
        <div>
          <a className={buttonClass('primary')} href={gang.href} download={gang.fileName}>
            Save gang
          </a>
        </div>
      )}
      <p className={styles['soft']}>
        {gang.fileName}, {fileSize(gang.byteLength)}, woven in {trimmed(gang.seconds, 1)} s.
      </p>
    </div>
  );
};

const Megadots = () => {
  const job = useJob();
  const paper = gangPaperOf(job);
  const [widthMm, heightMm] =
    paper === undefined ? gangSizeMm(job) : [paper.widthMm, paper.heightMm];
  const { horizontalDpi, verticalDpi } = sheetDensity(job);
  const dots = (widthMm * horizontalDpi * heightMm * verticalDpi) / MM_PER_INCH ** 2;
  return (
    <p className={styles['soft']}>
      {paper === undefined
        ? 'The file is as large as the lens sheet'
        : 'The file is the page set above, with the lens sheet in its middle'}
      : {trimmed(widthMm, 1)} × {trimmed(heightMm, 1)} mm, {trimmed(dots / 1e6, 1)} megadots. Print
      at 100 %, no scaling. The rails lie under the lens, inside its free edge: from before its
      middle they are even from end to end when it lies square.
    </p>
  );
};

interface Props {
  readonly view: GangView;
  readonly others: ReadonlyMap<string, Job> | undefined;
}

export const WeaveGang = ({ view, others }: Props) => {
  const gang = useWork((work) => work.gang);
  const fileType = useView((state) => state.fileType);
  const saveTo = useView((state) => state.saveTo);
  const set = useView((state) => state.set);
  const isDone = gang.stage === 'woven' && !gang.stale;
  return (
    <section className={styles['part']}>
      <h3>The file</h3>
      <div>
        <ChoiceField
          label="File type"
          choices={fileTypes}
          value={fileType}
          onChange={(value) => set({ fileType: value })}
        />
      </div>
      <HeldInMemory toChosenFile={saveTo === 'chosen-file'} />
      <Megadots />
      <HeldFocus stage={gang.stage}>
        {gang.stage === 'weaving' ? (
          <div className={styles['running']}>
            <ProgressBar
              label="Weaving the gang"
              done={gang.rowsDone}
              total={gang.rows}
              of="rows"
              secondsLeft={gang.secondsLeft}
            />
            <Button onClick={stopGang}>Stop</Button>
          </div>
        ) : (
          <div>
            <Button
              look={isDone ? 'plain' : 'primary'}
              off={view.best.places.length === 0 || others === undefined}
              onClick={() => void weaveGang(others ?? new Map())}
            >
              Weave this gang
            </Button>
          </div>
        )}
        {/* There from the start: a region that comes with its words is not read aloud. */}
        <div role="status">
          <Ended gang={gang} />
        </div>
      </HeldFocus>
    </section>
  );
};
