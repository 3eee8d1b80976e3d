/** Trials side by side: what they share is quiet, what differs stands out. */
import { factsOf } from '../../../job/facts/trial-rows.ts';
import type { Trial } from '../../../job/schema/trial.ts';
import { Table } from '../../../ui/index.ts';
import { useUnits } from '../../studio.ts';

interface Props {
  readonly trials: readonly Trial[];
  readonly numberOf: (trial: Trial) => number;
}

export const Compare = ({ trials, numberOf }: Props) => {
  const units = useUnits();
  const columns = trials.map((trial) => factsOf(trial, units));
  const names = columns[0]?.map(({ name }) => name) ?? [];
  const rows = names
    .map((name, row) => ({ name, values: columns.map((facts) => facts[row]?.value ?? '') }))
    .filter(({ values }) => values.some((value) => value !== ''));
  return (
    <Table
      name="Trials compared"
      head={[
        <span className="unseen">What</span>,
        ...trials.map((trial) => `Trial ${numberOf(trial)}`),
      ]}
      rows={rows.map(({ name, values }) => [name, ...values])}
      stands={(row) => rows[row]?.values.some((value, _, [first]) => value !== first) === true}
    />
  );
};
