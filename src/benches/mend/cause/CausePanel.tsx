/** What is wrong, the surest first, with its numbers; and the print as believed beside the cured one. */
import { useMemo } from 'react';
import { noFaults } from '../../../core/mend/fault.ts';
import type { RankedCause } from '../../../core/mend/rank.ts';
import { trimmed } from '../../../core/units/format.ts';
import type { Diagnosis } from '../../../job/facts/mend.ts';
import { believedFaults } from '../../../job/facts/mend.ts';
import { exactnessOf } from '../../../job/facts/plan.ts';
import { causeWords } from '../../../job/words/causes.ts';
import { Columns, Panel, Prose, Stack } from '../../../ui/index.ts';
import { useJob } from '../../studio.ts';
import { SeenCanvas } from '../SeenCanvas.tsx';
import { useDiagnosis } from '../use-diagnosis.ts';
import { useSeenFrames, useSeenScene } from '../use-seen.ts';
import { Numbers } from './Numbers.tsx';
import styles from '../mend.module.css';

const PICTURE_PX = 400;

const sureness = (confidence: number): string =>
  confidence > 0.95 ? 'almost surely' : confidence > 0.8 ? 'very likely' : 'likely';

const Cause = ({ cause, most }: { readonly cause: RankedCause; readonly most: boolean }) => {
  const budget = exactnessOf(useJob()).budgetZones;
  const { zones, confidence } = cause;
  const { name, why } = causeWords[cause.cause];
  return (
    <li className={styles['cause']}>
      <h3>
        {name}
        <span className={styles['sure']}>
          {sureness(confidence)}
          {most && ', and it matters most'}
        </span>
      </h3>
      <Prose>{why}</Prose>
      {zones !== undefined && (
        <Prose>
          It uses {trimmed(zones, 2)} {trimmed(zones, 2) === '1' ? 'zone' : 'zones'} over the print;{' '}
          {trimmed(budget, 2)} is allowed.
        </Prose>
      )}
    </li>
  );
};

const asPlanned = () => noFaults;

const BothPrints = ({ diagnosis }: { readonly diagnosis: Diagnosis }) => {
  const frames = useSeenFrames(PICTURE_PX);
  const faults = useMemo(() => () => believedFaults(diagnosis), [diagnosis]);
  const printed = useSeenScene(frames, faults);
  const cured = useSeenScene(frames, asPlanned);
  if (printed === undefined || cured === undefined) return null;
  return (
    <Columns least={16} gap={4} className={styles['pair']}>
      <figure>
        <SeenCanvas scene={printed} label="The print as it is believed to lie there" />
        <figcaption>As printed, if this is right: it should look like yours.</figcaption>
      </figure>
      <figure>
        <SeenCanvas scene={cured} label="The print once it is cured" />
        <figcaption>The cure</figcaption>
      </figure>
    </Columns>
  );
};

/** Causes that share a number are told by the one that spends most. */
const mostOf = (found: readonly RankedCause[]): RankedCause | undefined =>
  found.length < 2
    ? undefined
    : [...found].sort((a, b) => (b.zones ?? 0) - (a.zones ?? 0)).find(({ zones }) => zones);

export const CausePanel = () => {
  const diagnosis = useDiagnosis();
  if (diagnosis === undefined) return null;
  const { found, ranked } = diagnosis;
  const guess = ranked[0];
  const most = mostOf(found);
  return (
    <Panel title="What is wrong">
      <div role="status">
        {found.length === 0 && guess !== undefined && (
          <p>
            Not sure yet. Perhaps: {causeWords[guess.cause].name.toLowerCase()}. Count what is asked
            above.
          </p>
        )}
        <Stack as="ol">
          {found.map((cause) => (
            <Cause key={cause.cause} cause={cause} most={cause === most} />
          ))}
        </Stack>
      </div>
      <Numbers diagnosis={diagnosis} />
      {found.length > 0 && <BothPrints diagnosis={diagnosis} />}
    </Panel>
  );
};
