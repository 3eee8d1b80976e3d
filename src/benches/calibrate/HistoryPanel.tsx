/** Pitches read before for this lens, printer setting and axis of the printer, and how they scatter. */
import { trimmed } from '../../core/units/format.ts';
import type { KeptReading } from '../../job/facts/pitch-history.ts';
import { lpiAtJob, readingsFor, spreadOf, takeReading } from '../../job/facts/pitch-history.ts';
import { Button, Panel, Prose, Table } from '../../ui/index.ts';
import { useChange, useJob, useWork } from '../studio.ts';

const methods = {
  band: 'best band',
  fringes: 'fringes counted',
  photo: 'photo',
  print: 'failed print',
} as const;

const howOf = ({ method, skewDeg, skewPlusMinusDeg }: KeptReading['proved']): string => {
  const how = method === undefined ? '' : methods[method];
  if (skewDeg === undefined) return how;
  const doubt = skewPlusMinusDeg === undefined ? '' : ` ±${trimmed(skewPlusMinusDeg, 3)}`;
  return `${how}, lens ${trimmed(skewDeg, 3)}${doubt}° askew`;
};

export const HistoryPanel = () => {
  const change = useChange();
  const job = useJob();
  const entries = readingsFor(
    job,
    useWork((work) => work.pitchReadings),
  );
  if (entries.length === 0) return null;
  const rowOf = (entry: KeptReading) => {
    const { proved } = entry;
    const value = trimmed(lpiAtJob(job, entry), 3);
    const isUsed =
      job.provedPitch?.viewingPitchMm === proved.viewingPitchMm &&
      job.provedPitch.readFromMm === proved.readFromMm;
    return [
      proved.readOn ?? '',
      proved.paper ?? '',
      howOf(proved),
      `${value}${proved.plusMinusLpi === undefined ? '' : ` ±${trimmed(proved.plusMinusLpi, 3)}`}`,
      isUsed ? (
        'in use'
      ) : (
        <Button
          aria-label={`Use ${value} LPI`}
          onClick={() => void change('proved pitch', (now) => takeReading(now, entry))}
        >
          Use it
        </Button>
      ),
    ];
  };
  const { meanLpi, deviationLpi } = spreadOf(entries.map((entry) => lpiAtJob(job, entry)));
  return (
    <Panel title="Read before">
      <Table
        name="Read before"
        caption="For this lens, printer setting and axis of the printer, in LPI at the job’s viewing distance."
        head={['Read on', 'Paper', 'How', 'Pitch', <span className="unseen">Choice</span>]}
        rows={entries.map(rowOf)}
      />
      {deviationLpi !== undefined && (
        <Prose>
          Mean {trimmed(meanLpi, 3)} LPI; they scatter by {trimmed(deviationLpi, 3)} (one standard
          deviation).
        </Prose>
      )}
    </Panel>
  );
};
