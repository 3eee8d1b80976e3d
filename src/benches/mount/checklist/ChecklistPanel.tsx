/** From the woven sheet to the print under its lens: steps with this job's numbers, ticked as done. */
import { useState } from 'react';
import { clearTicks, ticksAmong } from '../../../job/edits/mount-ticks.ts';
import { mountStages } from '../../../job/facts/mount/step.ts';
import { GIVE_WAY } from '../../../job/words/cautions.ts';
import { mountSteps } from '../../../job/facts/mount/steps.ts';
import { Button, Panel, ProgressBar, Prose, Stack } from '../../../ui/index.ts';
import { useChange, useJob, useUnits, useView } from '../../studio.ts';
import { SavePage } from './SavePage.tsx';
import { StepItem } from './StepItem.tsx';
import styles from './checklist.module.css';

export const ChecklistPanel = () => {
  const change = useChange();
  const job = useJob();
  const unit = useUnits();
  const fileType = useView((view) => view.fileType);
  const setting = { unit, fileType };
  const steps = mountSteps(job, setting);
  const done = ticksAmong(job, steps);
  // The stage that has the next step is open, and stays so: closing it would take the focus away. The others open by a
  // press.
  const [opened, setOpened] = useState<ReadonlySet<string>>(new Set());
  const now = steps.find(({ id }) => job.mountTicks?.includes(id) !== true)?.stage;
  if (now !== undefined && !opened.has(now)) setOpened(new Set([...opened, now]));
  return (
    <Panel
      title="Checklist"
      actions={
        <Button
          off={job.mountTicks === undefined}
          onClick={() => void change('checklist', clearTicks)}
        >
          Start again
        </Button>
      }
    >
      <div className={styles['progress']}>
        <ProgressBar label="Done" done={done} total={steps.length} of="steps" />
      </div>
      <Prose>{GIVE_WAY}</Prose>
      {mountStages.map((stage) => {
        const own = steps.filter((step) => step.stage === stage);
        return (
          <details key={stage} className={styles['stage']} open={opened.has(stage)}>
            <summary>
              <h3>{stage}</h3>
              <span>
                {ticksAmong(job, own)} of {own.length}
              </span>
            </summary>
            <Stack as="ol" gap={0}>
              {own.map((step) => (
                <StepItem key={step.id} step={step} />
              ))}
            </Stack>
          </details>
        );
      })}
      <SavePage setting={setting} />
    </Panel>
  );
};
