/** Fringes counted in some bands: for strips where no band is even, and for a closer figure. */
import { bandsToCount } from '../../core/pitch/read-fringes.ts';
import { bandLabel } from '../../core/pitch/strip.ts';
import { trimmed } from '../../core/units/format.ts';
import { readNumber } from '../../core/units/parse.ts';
import { mm, mmToInch } from '../../core/units/units.ts';
import { changeReading } from '../../job/edits/strip.ts';
import { pitchBudget } from '../../job/facts/pitch.ts';
import { fringeReadingOf } from '../../job/facts/strip-readings.ts';
import type { WovenStrip } from '../../job/schema/pitch.ts';
import { BlankField, Fields, Notice, Prose } from '../../ui/index.ts';
import { useChange, useJob } from '../studio.ts';
import styles from './calibrate.module.css';

const MOST_FRINGES = 500;

/** What is wrong with a count as it was typed. */
const faultOf = (text: string): string | undefined => {
  if (text === '') return undefined;
  const read = readNumber(text);
  if (!read.ok) return read.message;
  return read.value < 0 || read.value > MOST_FRINGES
    ? `Type a count from 0 to ${MOST_FRINGES}; it has no sign.`
    : undefined;
};

const Doubt = ({ strip }: { readonly strip: WovenStrip }) => {
  const reading = fringeReadingOf(useJob(), strip);
  if (reading === undefined || reading.ok) return null;
  if (reading.why === 'too-few') return <Prose>Count in one band more.</Prose>;
  if (reading.why === 'two-ways')
    return (
      <Notice kind="caution" title="These counts fit more than one pitch">
        {reading.candidatesLpi.map((one) => trimmed(one, 3)).join(' or ')} LPI: count in one more
        band, far from these.
      </Notice>
    );
  return (
    <Notice kind="problem" title="These counts contradict each other">
      No one pitch shows so many fringes in these bands. Count again from edge to edge, with the
      head still, and check that the lens covers the whole strip.
    </Notice>
  );
};

export const FringeFields = ({ strip }: { readonly strip: WovenStrip }) => {
  const job = useJob();
  const change = useChange();
  const kept = job.pitchStrip?.counts;
  const advised = Math.min(
    strip.bandsLpi.length,
    bandsToCount(mmToInch(mm(strip.acrossMm)), pitchBudget(job)),
  );
  const counts = strip.bandsLpi.map((_, band) => kept?.[band] ?? '');
  const commit = (at: number, text: string) =>
    faultOf(text) ??
    change(
      ...changeReading('fringes', strip, {
        counts: counts.map((count, band) => (band === at ? text : count)),
      }),
    );
  return (
    <details className={styles['fringes']} open={counts.some((count) => count !== '') || undefined}>
      <summary>Or count fringes</summary>
      <p>
        With the head still, count from one dark fringe to the next, edge to edge, and guess the
        rest at both ends to half a fringe. {advised} bands spread over the strip are enough for
        this print.
      </p>
      <Fields least={8.5} gap="2 4">
        {strip.bandsLpi.map((bandLpi, band) => (
          <BlankField
            key={bandLpi}
            label={`Fringes in ${bandLabel(bandLpi)}`}
            value={counts[band] ?? ''}
            onCommit={(text) => commit(band, text)}
          />
        ))}
      </Fields>
      <div role="status">
        <Doubt strip={strip} />
      </div>
    </details>
  );
};
