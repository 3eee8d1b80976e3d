/** From the woven sheet to the print under its lens: steps with this job's numbers, ticked as done. */
import { clearTicks, ticksAmong } from '../../../job/edits/mount-ticks.ts';
import { mountStages } from '../../../job/facts/mount/step.ts';
import { mountSteps } from '../../../job/facts/mount/steps.ts';
import { Button, Panel, ProgressBar, Stack } from '../../../ui/index.ts';
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
      {mountStages.map((stage) => (
        <Stack key={stage} as="section" gap={2}>
          <h3>{stage}</h3>
          <Stack as="ol" gap={0}>
            {steps
              .filter((step) => step.stage === stage)
              .map((step) => (
                <StepItem key={step.id} step={step} />
              ))}
          </Stack>
        </Stack>
      ))}
      <SavePage setting={setting} />
    </Panel>
  );
};
