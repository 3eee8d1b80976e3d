/** Other kept jobs of the same lens that share the sheet. */
import { nameInText } from '../../../core/names/shown.ts';
import { plainMeasure } from '../../../core/units/measure.ts';
import { changeGuest, replaceGuest } from '../../../job/edits/gang.ts';
import { differsInLens, gangOf } from '../../../job/facts/gang.ts';
import type { Job } from '../../../job/schema/job.ts';
import { Button, MeasureField, Name, Row, SelectField, Stack } from '../../../ui/index.ts';
import { useChange, useJob } from '../../studio.ts';
import styles from './gang.module.css';

const countMeasure = plainMeasure(1, 0);

interface Props {
  /** Undefined while they are being read. */
  readonly others: ReadonlyMap<string, Job> | undefined;
}

/** A kept job of the same name, for a guest that is not kept under its own id: carried here by itself. */
const namesakeOf = (
  host: Job,
  guest: { readonly jobId: string; readonly name?: string | undefined },
  others: ReadonlyMap<string, Job>,
): string | undefined => {
  const laid = new Set((gangOf(host).guests ?? []).map(({ jobId }) => jobId));
  if (others.has(guest.jobId) || guest.name === undefined) return undefined;
  return [...others].find(
    ([id, other]) =>
      !laid.has(id) && other.name === guest.name && differsInLens(host, other) === undefined,
  )?.[0];
};

const Guests = ({ others }: { readonly others: ReadonlyMap<string, Job> }) => {
  const change = useChange();
  const job = useJob();
  const guests = gangOf(job).guests ?? [];
  if (guests.length === 0) return null;
  return (
    <Stack as="ul" gap={2} aria-label="Other jobs on this lens">
      {guests.map(({ jobId, copies, name: lastName }) => {
        const now = others.get(jobId)?.name;
        const known = lastName === undefined ? 'a job without a name' : nameInText(lastName);
        const name = now === undefined ? `${known}, not kept here` : nameInText(now);
        const namesake = namesakeOf(job, { jobId, name: lastName }, others);
        return (
          <Row key={jobId} as="li" align="end">
            <MeasureField
              label={`Copies of ${name}`}
              value={copies}
              measure={countMeasure}
              onCommit={(value) => change(...changeGuest(jobId, value, now))}
            />
            {namesake !== undefined && (
              <Button
                aria-label={`Use the kept job ${known}`}
                onClick={() => void change(...replaceGuest(jobId, namesake, lastName ?? ''))}
              >
                Use the one kept here
              </Button>
            )}
            <Button
              aria-label={`Take ${name} off this lens`}
              onClick={() => void change(...changeGuest(jobId, undefined))}
            >
              Take off
            </Button>
          </Row>
        );
      })}
    </Stack>
  );
};

export const GuestList = ({ others }: Props) => {
  const change = useChange();
  const job = useJob();
  if (others === undefined) return null;
  const laid = new Set((gangOf(job).guests ?? []).map(({ jobId }) => jobId));
  const rest = [...others].filter(([id]) => !laid.has(id));
  const fitting = rest.filter(([, other]) => differsInLens(job, other) === undefined);
  const apart = rest.filter(([, other]) => differsInLens(job, other) !== undefined);
  return (
    <>
      <Guests others={others} />
      {fitting.length > 0 && (
        <SelectField
          label="Add another job of this lens"
          choices={[
            { value: '', label: 'Choose a job' },
            ...fitting.map(([id, { name }]) => ({ value: id, label: nameInText(name) })),
          ]}
          value=""
          onChange={(id) => {
            if (id !== '') void change(...changeGuest(id, 1, others.get(id)?.name));
          }}
        />
      )}
      {apart.length > 0 && (
        <details className={styles['apart']}>
          <summary>
            {apart.length === 1 ? 'One kept job' : `${apart.length} kept jobs`} cannot lie on this
            lens
          </summary>
          <ul>
            {apart.map(([id, other]) => (
              <li key={id}>
                <Name>{other.name}</Name>: {differsInLens(job, other)}.
              </li>
            ))}
          </ul>
        </details>
      )}
    </>
  );
};
