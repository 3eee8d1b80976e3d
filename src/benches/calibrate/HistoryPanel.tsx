/** Pitches read before for this lens, printer setting and way round, and how they scatter. */
import { trimmed } from '../../core/units/format.ts';
import type { KeptReading } from '../../job/facts/pitch-history.ts';
import { lpiAtJob, readingsFor, spreadOf, takeReading } from '../../job/facts/pitch-history.ts';
import { Button, Panel } from '../../ui/index.ts';
import { useChange, useJob, useWork } from '../studio.ts';
import styles from './calibrate.module.css';

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

const Entry = ({ entry }: { readonly entry: KeptReading }) => {
  const change = useChange();
  const job = useJob();
  const { proved } = entry;
  const value = trimmed(lpiAtJob(job, entry), 3);
  const isUsed =
    job.provedPitch?.viewingPitchMm === proved.viewingPitchMm &&
    job.provedPitch.readFromMm === proved.readFromMm;
  return (
    <tr>
      <td>{proved.readOn ?? ''}</td>
      <td>{proved.paper ?? ''}</td>
      <td>{howOf(proved)}</td>
      <td>
        {value}
        {proved.plusMinusLpi === undefined ? '' : ` ±${trimmed(proved.plusMinusLpi, 3)}`}
      </td>
      <td>
        {isUsed ? (
          'in use'
        ) : (
          <Button
            aria-label={`Use ${value} LPI`}
            onClick={() => void change('proved pitch', (now) => takeReading(now, entry))}
          >
            Use it
          </Button>
        )}
      </td>
    </tr>
  );
};

export const HistoryPanel = () => {
  const job = useJob();
  const entries = readingsFor(
    job,
    useWork((work) => work.pitchReadings),
  );
  if (entries.length === 0) return null;
  const { meanLpi, deviationLpi } = spreadOf(entries.map((entry) => lpiAtJob(job, entry)));
  return (
    <Panel title="Read before">
      <table className={styles['history']}>
        <caption>
          For this lens, printer setting and way round, in LPI at the job’s viewing distance.
        </caption>
        <thead>
          <tr>
            <th scope="col">Read on</th>
            <th scope="col">Paper</th>
            <th scope="col">How</th>
            <th scope="col">Pitch</th>
            <th scope="col">
              <span className="unseen">Choice</span>
            </th>
          </tr>
        </thead>
        <tbody>
          {entries.map((entry, i) => (
            <Entry key={i} entry={entry} />
          ))}
        </tbody>
      </table>
      {deviationLpi !== undefined && (
        <p className={styles['soft']}>
          Mean {trimmed(meanLpi, 3)} LPI; they scatter by {trimmed(deviationLpi, 3)} (one standard
          deviation).
        </p>
      )}
    </Panel>
  );
};
