/** From the woven sheet to the print under its lens: steps with this job's numbers, ticked as done. */
import { clearTicks, ticksAmong } from '../../../job/edits/mount-ticks.ts';
import { mountStages } from '../../../job/facts/mount/step.ts';
import { mountSteps } from '../../../job/facts/mount/steps.ts';
import { Button, Panel, ProgressBar } from '../../../ui/index.ts';
import { useChange, useJob, useView } from '../../studio.ts';
import { SavePage } from './SavePage.tsx';
import { StepItem } from './StepItem.tsx';
import styles from './checklist.module.css';

export const ChecklistPanel = () => {
  const change = useChange();
  const job = useJob();
  const unit = useView((view) => view.units);
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
        <section key={stage} className={styles['stage']}>
          <h3>{stage}</h3>
          <ol className={styles['steps']}>
            {steps
              .filter((step) => step.stage === stage)
              .map((step) => (
                <StepItem key={step.id} step={step} />
              ))}
          </ol>
        </section>
      ))}
      <SavePage setting={setting} />
    </Panel>
  );
};
