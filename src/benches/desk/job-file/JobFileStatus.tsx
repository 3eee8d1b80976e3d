/** How saving or opening a job file goes, and went: at the head of the page, whatever bench is open. */
import { useStore } from 'zustand';
import type { JobFileWork } from '../../../studio/keep/job-file/progress.ts';
import { Button, buttonClass, Notice, Row, Stack, UnderWay } from '../../../ui/index.ts';
import { useStudio } from '../../studio.ts';
import styles from './job-file.module.css';
import { useJobDrop } from './use-job-drop.ts';

const stages: Readonly<Record<JobFileWork['stage'], { label: string; stop: string }>> = {
  saving: { label: 'Saving the job file', stop: 'Stop saving' },
  reading: { label: 'Reading the job file', stop: 'Stop opening' },
  looking: { label: 'Looking at the pictures', stop: 'Stop opening' },
};

interface ProgressProps {
  readonly work: JobFileWork;
  onStop(): void;
}

const Progress = ({ work: { stage, done, total }, onStop }: ProgressProps) => {
  const { label, stop } = stages[stage];
  const scale = stage === 'looking' ? 1 : 2 ** 20;
  const inUnits = (count: number) => (scale === 1 ? count : Math.ceil(count / scale));
  return (
    <UnderWay
      label={label}
      done={inUnits(done)}
      total={inUnits(total)}
      of={stage === 'looking' ? 'pictures' : 'MB'}
      stop={stop}
      onStop={onStop}
    />
  );
};

export const JobFileStatus = () => {
  const { jobFile } = useStudio();
  const { work, notice } = useStore(jobFile.store);
  useJobDrop();
  if (work === undefined && notice === undefined) return null;
  return (
    <Stack className={styles['status']}>
      {work !== undefined && <Progress work={work} onStop={jobFile.stop} />}
      {notice !== undefined && (
        <Notice kind={notice.kind} title={notice.title} announce>
          <p>{notice.text}</p>
          <Row gap="1 2">
            {notice.href !== undefined && (
              <a className={buttonClass()} href={notice.href} download={notice.fileName}>
                Download it again
              </a>
            )}
            <Button onClick={() => jobFile.say(undefined)}>Dismiss</Button>
          </Row>
        </Notice>
      )}
    </Stack>
  );
};
