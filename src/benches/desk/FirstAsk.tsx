/**
 * A person's first job begins with numbers of the studio's own. What lens, printer, size and distance they really
 * have is asked once, on one small sheet that stands in the way of nothing.
 */
import { useEffect, useId, useRef } from 'react';
import type { Measure } from '../../core/units/measure.ts';
import { densityMeasure, lengthMeasure, pitchMeasure } from '../../core/units/measure.ts';
import { giveOwn, guessOf, toBeAsked } from '../../job/edits/guessed.ts';
import type { Guessable } from '../../job/schema/job.ts';
import { guessable } from '../../job/schema/job.ts';
import { BlankMeasure, Button, Row } from '../../ui/index.ts';
import { useChange, useJob, useUnits, useView } from '../studio.ts';
import styles from './FirstAsk.module.css';
import { notAsking } from './use-asking.ts';
import { usePartShown } from './use-parts.ts';

const questions: Readonly<Record<Guessable, string>> = {
  lensPitch: 'Pitch of your lens sheet',
  lensThickness: 'Its thickness',
  printer: 'Dots of your printer',
  printWidth: 'Width of the print',
  distance: 'Seen from',
};

const useMeasures = (): Readonly<Record<Guessable, Measure>> => {
  const units = useUnits();
  const pitchUnit = useView((view) => view.pitchUnit);
  return {
    lensPitch: pitchMeasure(pitchUnit),
    lensThickness: lengthMeasure(units),
    printer: densityMeasure,
    printWidth: lengthMeasure(units),
    distance: lengthMeasure(units),
  };
};

const Questions = () => {
  const set = useView((view) => view.set);
  const change = useChange();
  const job = useJob();
  const open = toBeAsked(job);
  const measures = useMeasures();
  const [, choose] = usePartShown('plan');
  return (
    <div className={styles['fields']}>
      {guessable.map((part) => {
        const measure = measures[part];
        const now = guessOf(job, part);
        return (
          <div key={part}>
            <BlankMeasure
              label={questions[part]}
              measure={measure}
              value={open.includes(part) ? undefined : now}
              {...(open.includes(part)
                ? { hint: `For now: ${measure.format(now)} ${measure.unit}` }
                : {})}
              onCommit={(value) =>
                value === undefined ? undefined : change(...giveOwn(part, value))
              }
            />
            {open.includes(part) && (
              <a href="#/plan" onClick={() => choose('which')}>
                I don’t know yet<span className="unseen">: {questions[part]}</span>
              </a>
            )}
          </div>
        );
      })}
      <Button
        look={open.length === 0 ? 'primary' : 'plain'}
        className={styles['done']}
        onClick={() => set(notAsking)}
      >
        {open.length === guessable.length ? 'Not now' : 'Done'}
      </Button>
    </div>
  );
};

const Sheet = () => {
  const id = useId();
  const heading = useRef<HTMLHeadingElement>(null);
  const called = useView((view) => view.asking);
  useEffect(() => {
    if (called) heading.current?.focus();
  }, [called]);
  return (
    <section className={styles['ask']} aria-labelledby={`${id}-title`}>
      <Row gap="1 4">
        <h2 id={`${id}-title`} ref={heading} tabIndex={-1}>
          Which lens, which printer, how large, seen from where?
        </h2>
        <span className={styles['why']}>
          Any unit will do: 60 lpi, 0.42 mm, 8 in, 1.5 m. It all goes to the job sheet.
        </span>
      </Row>
      <Questions />
    </section>
  );
};

export default Sheet;
