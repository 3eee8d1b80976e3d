/** The log: every print of this job, what was seen, what was changed, and what that history tells. */
import { useState } from 'react';
import { formatLengthRough, sayLength, trimmed } from '../../../core/units/format.ts';
import { plainMeasure } from '../../../core/units/measure.ts';
import type { LengthUnit } from '../../../core/units/parse.ts';
import { MM_PER_INCH, mm } from '../../../core/units/units.ts';
import {
  addGoodTrial,
  historyFindings,
  removeTrial,
  setTrial,
  trialsOf,
} from '../../../job/facts/trials.ts';
import type { Trial } from '../../../job/schema/trial.ts';
import { newTrialNotes } from '../../../studio/keep/new-trial.ts';
import { saveLog } from '../../../studio/keep/trial-log.ts';
import {
  BlankMeasure,
  Button,
  Fields,
  Notice,
  Panel,
  Prose,
  Row,
  Stack,
  TextField,
} from '../../../ui/index.ts';
import { useChange, useJob, useStudio, useTask, useUnits, useView } from '../../studio.ts';
import { Compare } from './Compare.tsx';
import { TrialPhoto } from './TrialPhoto.tsx';
import styles from '../mend.module.css';

const settingsLine = ({ printed }: Trial, units: LengthUnit): string =>
  `${trimmed(MM_PER_INCH / printed.viewingPitchMm, 3)} LPI ${printed.standing}, ` +
  `${printed.viewSlots} view slots, ${formatLengthRough(mm(printed.widthMm), units)} × ${sayLength(printed.heightMm, units)}, ` +
  `from ${sayLength(printed.distanceMm, units)}`;

const Lines = ({ title, lines }: { readonly title: string; readonly lines: readonly string[] }) =>
  lines.length === 0 ? null : (
    <div>
      <Prose as="span">{title}</Prose>
      <ul>
        {lines.map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
    </div>
  );

interface TrialProps {
  readonly trial: Trial;
  readonly number: number;
  readonly compared: boolean;
  readonly onCompare: (wanted: boolean) => void;
}

const TrialItem = ({ trial, number, compared, onCompare }: TrialProps) => {
  const change = useChange();
  const mark = useView((view) => view.currencyMark);
  const units = useUnits();
  const name = `Trial ${number}`;
  return (
    <li className={styles['trial']}>
      <TrialPhoto trial={trial} name={name} />
      <h3>
        {name}, {trial.on}: {trial.outcome === 'good' ? 'good' : 'failed'}
      </h3>
      <Prose>{settingsLine(trial, units)}</Prose>
      {trial.file !== undefined && <Prose>{trial.file}</Prose>}
      <Lines title="Found" lines={trial.found} />
      <Lines title="Changed for the next" lines={trial.changed} />
      <Fields least={13}>
        <TextField
          label={`Note on trial ${number}`}
          value={trial.note ?? ''}
          maxLength={2000}
          onCommit={(note) => void change('note', (job) => setTrial(job, trial.id, { note }))}
        />
        <BlankMeasure
          label={`Cost of trial ${number}`}
          value={trial.cost}
          measure={plainMeasure(1, 2, mark)}
          onCommit={(cost) => change('cost', (job) => setTrial(job, trial.id, { cost }))}
        />
      </Fields>
      <Row>
        <label className={styles['tick']}>
          <input
            type="checkbox"
            checked={compared}
            onChange={({ target }) => onCompare(target.checked)}
          />
          Compare trial {number}
        </label>
        <Button onClick={() => void change('trial taken out', (job) => removeTrial(job, trial.id))}>
          Take out trial {number}
        </Button>
      </Row>
    </li>
  );
};

const History = () => (
  <>
    {historyFindings(useJob()).map(({ id, title, figure, remedy }) => (
      <Notice key={id} kind="caution" title={title}>
        {figure}. {remedy}
      </Notice>
    ))}
  </>
);

export const TrialsPanel = () => {
  const job = useJob();
  const studio = useStudio();
  const sheet = useTask('sheet');
  const units = useUnits();
  const trials = trialsOf(job);
  const [compared, setCompared] = useState<readonly string[]>([]);
  const [told, setTold] = useState<string>();
  const both = trials.filter(({ id }) => compared.includes(id));
  const logGood = () =>
    void studio.change('good print', (now) => addGoodTrial(now, newTrialNotes(sheet)));
  return (
    <Panel title="Trials">
      {trials.length === 0 && (
        <Prose>
          No print has been logged yet. A failed one comes here when you put it right; a good one by
          the button.
        </Prose>
      )}
      <Row>
        <Button onClick={logGood}>Log a good print</Button>
        {trials.length > 0 && (
          <Button onClick={() => void saveLog(studio, job, units).then(setTold)}>
            Save the log as a page
          </Button>
        )}
      </Row>
      <p role="status">{told}</p>
      <History />
      {both.length > 1 && <Compare trials={both} numberOf={(trial) => trials.indexOf(trial) + 1} />}
      <Stack as="ol" gap={4}>
        {[...trials].reverse().map((trial) => (
          <TrialItem
            key={trial.id}
            trial={trial}
            number={trials.indexOf(trial) + 1}
            compared={compared.includes(trial.id)}
            onCompare={(wanted) =>
              setCompared(
                wanted ? [...compared, trial.id] : compared.filter((id) => id !== trial.id),
              )
            }
          />
        ))}
      </Stack>
    </Panel>
  );
};
