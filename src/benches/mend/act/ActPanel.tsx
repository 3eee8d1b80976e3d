/** What to do: the job's numbers to change, what saves this print, and the trial for the log. */
import { useRef, useState } from 'react';
import { isoDay } from '../../../core/units/day.ts';
import type { Diagnosis } from '../../../job/facts/mend.ts';
import { seeingOf } from '../../../job/facts/mend.ts';
import type { CautionKind } from '../../../job/facts/mount/step.ts';
import { addFailedTrial } from '../../../job/facts/trials.ts';
import type { Advice, Cure } from '../../../job/findings/cures.ts';
import { adviceOf } from '../../../job/findings/cures.ts';
import type { BenchName } from '../../../job/findings/finding.ts';
import type { Job } from '../../../job/schema/job.ts';
import type { Printed } from '../../../job/schema/trial.ts';
import { causeWords } from '../../../job/words/causes.ts';
import { canStandThere, saySaving } from '../../../job/words/saving.ts';
import { newTrialNotes } from '../../../studio/keep/new-trial.ts';
import { Button, buttonClass, focusIfLost, Panel, Prose, Row, Stack } from '../../../ui/index.ts';
import { BenchLink } from '../../desk/BenchLink.tsx';
import { CautionNotes } from '../../desk/CautionNotes.tsx';
import { ALL_PARTS, usePartShown } from '../../desk/use-parts.ts';
import { useJob, useStudio, useTask, useUnits } from '../../studio.ts';
import { useDiagnosis } from '../use-diagnosis.ts';
import { SlicePart } from './SlicePart.tsx';
import styles from '../mend.module.css';

/** What is left once the adhesive has set. */
const afterSetting = ({ saving }: Advice, printed: Printed): string =>
  saving.some((remedy) => remedy.kind === 'stand-at' && canStandThere(remedy, printed))
    ? 'only standing elsewhere is left'
    : 'only a new print helps';

const ThisPrint = ({ advice }: { readonly advice: Advice }) => {
  const units = useUnits();
  const { printed } = seeingOf(useJob());
  const { saving, lost } = advice;
  const byHand = saving.some(({ kind }) => kind !== 'stand-at');
  return (
    <div hidden={saving.length === 0 && lost.length === 0}>
      <h3>This print</h3>
      <Stack as="ul">
        {saving.map((remedy) => (
          <li key={remedy.kind}>{saySaving(remedy, printed, units)}</li>
        ))}
      </Stack>
      {[...new Set(lost)].map((sentence) => (
        <p key={sentence}>{sentence}</p>
      ))}
      {byHand && lost.length === 0 && (
        <Prose>
          This can be done while the adhesive is open. Once it has set,{' '}
          {afterSetting(advice, printed)}.
        </Prose>
      )}
    </div>
  );
};

/** Opened adhesive for whatever is moved; rolling and pressing where air is to be driven out. */
const cautionsOf = ({ saving, cares }: Advice): readonly CautionKind[] => {
  const causes = new Set(cares.map(({ cause }) => cause));
  const presses =
    saving.some(({ kind }) => kind === 'press') || causes.has('gap') || causes.has('bubble');
  const moves =
    saving.some(({ kind }) => kind === 'turn' || kind === 'shift') ||
    causes.has('skew') ||
    causes.has('offset');
  return [
    ...(presses || moves ? (['adhesives', 'edges'] as const) : []),
    ...(presses ? (['rollers'] as const) : []),
  ];
};

const benchNamed = (goTo: BenchName): string =>
  `Go to ${goTo[0]?.toUpperCase() ?? ''}${goTo.slice(1)}`;

const Cares = ({ advice }: { readonly advice: Advice }) =>
  advice.cares.length === 0 ? null : (
    <div>
      <h3>Before the next print</h3>
      <Stack as="ul">
        {advice.cares.map(({ cause, says, goTo, part }) => (
          <li key={cause}>
            {says}{' '}
            {goTo !== undefined && (
              <BenchLink
                label={benchNamed(goTo)}
                goTo={goTo}
                {...(part === undefined ? {} : { part })}
              />
            )}
          </li>
        ))}
      </Stack>
    </div>
  );

/** Ticked where advised, until the person ticks otherwise. */
const useTaken = (cures: readonly Cure[]) => {
  const [byHand, setByHand] = useState<Readonly<Record<string, boolean>>>({});
  const isTaken = (cure: Cure) => byHand[cure.says] ?? cure.advised;
  return {
    isTaken,
    take: (cure: Cure, taken: boolean) => setByHand({ ...byHand, [cure.says]: taken }),
    taken: cures.filter(isTaken),
  };
};

const useApply = () => {
  const [told, setTold] = useState<{ readonly of: Job['trials']; readonly says: string }>();
  const studio = useStudio();
  const sheet = useTask('sheet');
  const { trials } = useJob();
  const apply = async (diagnosis: Diagnosis, cures: readonly Cure[]) => {
    const found = diagnosis.found.map(({ cause }) => causeWords[cause].name);
    const changed = cures.map(({ says }) => says);
    const refused = studio.change('trial and cure', (job) =>
      addFailedTrial(
        cures.reduce((now, cure) => cure.edit(now), job),
        diagnosis,
        { found, changed },
        newTrialNotes(sheet),
      ),
    );
    const tell = (says: string) => setTold({ of: studio.document.getState().job.trials, says });
    if (refused !== undefined) return tell(refused);
    const provesPitch = cures.some(({ cause }) => cause === 'pitch');
    const notKept = provesPitch
      ? await studio.pitches.remember(studio.document.getState().job)
      : undefined;
    tell(
      notKept ??
        (changed.length === 0
          ? 'The trial is in the log.'
          : `Changed: ${changed.join('; ')}. The trial is in the log.`),
    );
  };
  // Undone, or another trial later, it is no longer so.
  return { told: told?.of === trials ? told?.says : undefined, apply };
};

const Cures = ({
  advice,
  waitsFor,
  onApply,
}: {
  readonly advice: Advice;
  /** What is still to be counted before a number of the job can be named. */
  readonly waitsFor: string | undefined;
  readonly onApply: (cures: readonly Cure[]) => void;
}) => {
  const { isTaken, take, taken } = useTaken(advice.cures);
  return (
    <div>
      <h3>The job</h3>
      {advice.cures.length === 0 && (
        <Prose>{waitsFor ?? 'No number of the job is to blame, as far as it was counted.'}</Prose>
      )}
      {advice.cures.map((cure) => (
        <label key={cure.says} className={styles['tick']}>
          <input
            type="checkbox"
            checked={isTaken(cure)}
            onChange={({ target }) => take(cure, target.checked)}
          />
          {cure.says}
        </label>
      ))}
      <Row>
        <Button look="primary" onClick={() => onApply(taken)}>
          {taken.length === 0 ? 'Log this trial' : 'Change the job and log this trial'}
        </Button>
      </Row>
    </div>
  );
};

const waitsFor = ({ reading, found }: Diagnosis): string | undefined => {
  if (reading.open.length > 0)
    return 'Two pitches fit so far: say above which way the bands go, and how they lean.';
  return reading.pitch === undefined && found.some(({ cause }) => cause === 'pitch')
    ? 'Count the bands above and say which way they go: they give the pitch to weave next.'
    : undefined;
};

/** Nothing to press where the log stands on the same page. */
const ToTrials = () => {
  const [shown, choose] = usePartShown('mend');
  const look = () => {
    choose('trials');
    scrollTo({ top: 0 });
    focusIfLost(() => document.querySelector<HTMLElement>('#parts input:checked'));
  };
  return (
    shown !== ALL_PARTS && (
      <div>
        <Button onClick={look}>See the trials</Button>
      </div>
    )
  );
};

export const ActPanel = () => {
  const job = useJob();
  const { told, apply } = useApply();
  const diagnosis = useDiagnosis();
  const status = useRef<HTMLParagraphElement>(null);
  const advice =
    diagnosis === undefined
      ? undefined
      : adviceOf(job, seeingOf(job).printed, diagnosis, isoDay(new Date()));
  return (
    <Panel title="Put it right">
      {diagnosis === undefined || advice === undefined ? (
        <Prose>Once something is chosen or counted above, what to change stands here.</Prose>
      ) : (
        <>
          <ThisPrint advice={advice} />
          <Cares advice={advice} />
          <CautionNotes kinds={cautionsOf(advice)} />
          <Cures
            advice={advice}
            waitsFor={waitsFor(diagnosis)}
            onApply={(cures) => {
              void apply(diagnosis, cures);
              focusIfLost(() => status.current);
            }}
          />
        </>
      )}
      <p ref={status} role="status" tabIndex={-1}>
        {told}
      </p>
      {told !== undefined && <ToTrials />}
      <SlicePart />
      <p>
        <a className={buttonClass()} href="#/weave">
          Go to Weave
        </a>
      </p>
    </Panel>
  );
};
