/** First thing on the bench: whether it will work, in one sentence, and why, worst first. */
import type { Grade } from '../../../core/plan/verdict.ts';
import { sayFine, sayLength, trimmed } from '../../../core/units/format.ts';
import { lensFacts } from '../../../job/facts/plan.ts';
import { verdictOf } from '../../../job/facts/verdict.ts';
import { useJob, useUnits, useView } from '../../studio.ts';
import { Notice, Panel, Stack } from '../../../ui/index.ts';
import styles from './verdict.module.css';

const sentences: Readonly<Record<Grade, string>> = {
  well: 'suits this printer and size well.',
  losses: 'suits this printer and size, with losses.',
  not: 'does not suit this printer and size.',
};

/** Shape and word say the same as the colour. */
const signs: Readonly<Record<Grade, { readonly sign: string; readonly word: string }>> = {
  not: { sign: '✕', word: 'Against' },
  losses: { sign: '△', word: 'Loss' },
  well: { sign: '✓', word: 'Good' },
};

const capital = (text: string) => text.charAt(0).toUpperCase() + text.slice(1);

export const VerdictPanel = () => {
  const job = useJob();
  const pitchUnit = useView((view) => view.pitchUnit);
  const units = useUnits();
  const facts = lensFacts(job);
  const found =
    facts &&
    verdictOf(job, facts, units === 'in' ? (length) => sayLength(length, units) : undefined);
  const { pitchMm } = job.lens;
  const pitch =
    pitchUnit === 'lpi' ? `${trimmed(25.4 / pitchMm, 2)} LPI` : `${trimmed(pitchMm, 4)} mm`;
  return (
    <Panel title="Will it work?">
      <div role="status">
        {found === undefined ? (
          <Notice kind="problem" title="No lens of these measures can stand">
            No rib {sayFine(pitchMm, units)} wide focuses through a sheet only{' '}
            {sayFine(job.lens.thicknessMm, units)} thick. Check the lens thickness first: measure it
            from crest to back. Then check lens pitch and refractive index on the job sheet.
          </Notice>
        ) : (
          <p className={`${styles['sentence']} ${styles[found.grade]}`}>
            <span aria-hidden="true" className={styles['sign']}>
              {signs[found.grade].sign}
            </span>
            <span>
              This {pitch} lens {sentences[found.grade]}
            </span>
          </p>
        )}
      </div>
      {found !== undefined && (
        <Stack as="ul" gap={2} className={styles['reasons']} aria-label="Why">
          {found.reasons.map(({ grade, text }) => (
            <li key={text}>
              <span className={`${styles['word']} ${styles[grade]}`}>
                <span aria-hidden="true">{signs[grade].sign} </span>
                {signs[grade].word}
              </span>
              <span>{capital(text)}.</span>
            </li>
          ))}
        </Stack>
      )}
    </Panel>
  );
};
