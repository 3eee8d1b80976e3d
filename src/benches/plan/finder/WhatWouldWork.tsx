/** The lens on the job sheet, and the smallest change with which it would do. */
import type { Change } from '../../../core/plan/nearest-change.ts';
import { trimmed } from '../../../core/units/format.ts';
import { radToDeg } from '../../../core/units/units.ts';
import { applyChange } from '../../../job/edits/nearest-change.ts';
import { finderWish } from '../../../job/facts/finder-wish.ts';
import { sayFound } from '../../../job/words/found-lens.ts';
import { sayChange, sayWhatWouldWork } from '../../../job/words/what-would-work.ts';
import { Button, Prose, Stack } from '../../../ui/index.ts';
import { useChange, useJob } from '../../studio.ts';
import styles from './finder.module.css';
import { useSay } from './use-say.ts';
import { useWhatWouldWork } from './use-what-would-work.ts';

const OneChange = ({ change }: { readonly change: Change }) => {
  const job = useJob();
  const apply = useChange();
  const { say } = useSay();
  const { act, now } = sayChange(job, change, say);
  return (
    <li className={styles['change']}>
      <Button
        onClick={() => void apply('what would work', (before) => applyChange(before, change))}
      >
        {act}
      </Button>
      <span>{now}</span>
    </li>
  );
};

export const WhatWouldWork = () => {
  const job = useJob();
  const { say, fine } = useSay();
  const answer = useWhatWouldWork();
  if (answer === undefined) return null;
  const { found, single, pair } = answer;
  const isShort = found.short.length > 0;
  const words = sayFound(found, finderWish(job), say);
  const changes = pair === undefined ? single : [pair];
  return (
    <section
      className={styles['mine']}
      data-short={isShort || undefined}
      aria-label="What would make mine work"
    >
      <h3>What would make mine work?</h3>
      <p>
        {found.name}: {trimmed(found.lpi, 2)} LPI, {fine(found.lens.thicknessMm)} thick, cone{' '}
        {trimmed(radToDeg(found.coneRad), 0)}°.{' '}
        <span className={styles['why']}>{words.charAt(0).toUpperCase() + words.slice(1)}.</span>
      </p>
      <p className={styles['count']}>{sayWhatWouldWork(answer)}</p>
      {changes.length > 0 && (
        <Stack as="ul" gap={2} aria-label="Changes that are enough">
          {changes.map((change) => (
            <OneChange key={Object.keys(change).join()} change={change} />
          ))}
        </Stack>
      )}
      {isShort && changes.length > 0 && (
        <Prose>
          Each is one step to undo. Frames made for another distance, depth gain or count must be
          made anew.
        </Prose>
      )}
    </section>
  );
};
