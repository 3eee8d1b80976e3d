/** Trials side by side: what they share is quiet, what differs stands out. */
import { factsOf } from '../../../job/facts/trial-rows.ts';
import type { Trial } from '../../../job/schema/trial.ts';
import { useView } from '../../studio.ts';
import styles from '../mend.module.css';

interface Props {
  readonly trials: readonly Trial[];
  readonly numberOf: (trial: Trial) => number;
}

export const Compare = ({ trials, numberOf }: Props) => {
  const units = useView((view) => view.units);
  const columns = trials.map((trial) => factsOf(trial, units));
  const names = columns[0]?.map(({ name }) => name) ?? [];
  const rows = names
    .map((name, row) => ({ name, values: columns.map((facts) => facts[row]?.value ?? '') }))
    .filter(({ values }) => values.some((value) => value !== ''));
  return (
    <div className={styles['compare']} role="region" aria-label="Trials compared" tabIndex={0}>
      <table>
        <caption className="unseen">Trials compared</caption>
        <thead>
          <tr>
            <th scope="col">
              <span className="unseen">What</span>
            </th>
            {trials.map((trial) => (
              <th key={trial.id} scope="col">
                Trial {numberOf(trial)}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map(({ name, values }) => (
            <tr key={name} data-differs={values.some((value) => value !== values[0]) || undefined}>
              <th scope="row">{name}</th>
              {values.map((value, column) => (
                <td key={trials[column]?.id}>{value}</td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
};
