/** Laying the picture on another, by itself or by two points, and matching its light. */
import { useState } from 'react';
import type { Frame, Job } from '../../../job/schema/job.ts';
import { frameChoices } from '../../../job/words/frames.ts';
import type { Told } from '../../../studio/frames/match.ts';
import { matchByItself, matchLightTo, matchOthers } from '../../../studio/frames/match.ts';
import { Button, Notice, Prose, Row, SelectField, Stack, UnderWay } from '../../../ui/index.ts';
import { useIsRunning, useStudio } from '../../studio.ts';
import styles from './place.module.css';
import { TwoPoints } from './TwoPoints.tsx';

interface Props {
  readonly job: Job;
  readonly frame: Frame;
  readonly others: readonly Frame[];
  /** Undefined where there is none. */
  readonly other: Frame | undefined;
  onOther(id: string): void;
}

/** What goes on and what came of it; it goes with the picture it is about. */
const useMatching = () => {
  const studio = useStudio();
  const [told, setTold] = useState<Told>();
  const [progress, setProgress] = useState({ done: 0, total: 1 });
  const busy = useIsRunning('matching');
  const start = (work: () => Promise<Told | undefined>) => {
    setTold(undefined);
    setProgress({ done: 0, total: 1 });
    void work().then(setTold);
  };
  const report = (done: number, total: number) => setProgress({ done, total });
  return { studio, told, progress, busy, start, report };
};

export const MatchPart = ({ job, frame, others, other, onOther }: Props) => {
  const { studio, told, progress, busy, start, report } = useMatching();
  const [byPoints, setByPoints] = useState(false);
  if (other === undefined)
    return <Prose>Add another picture to lay this one on it, or to match its brightness.</Prose>;
  return (
    <Stack as="section" aria-labelledby="match-pictures" className={styles['match']}>
      <h3 id="match-pictures">Lay it on another picture</h3>
      <Prose>
        For two photographs of one scene that should not jump: whatever stays the same in both comes
        to lie on the same place of the print.
      </Prose>
      <SelectField
        label="Other picture"
        value={other.id}
        choices={frameChoices(job, others)}
        onChange={onOther}
      />
      <Row gap={2}>
        <Button off={busy} onClick={() => start(() => matchByItself(studio, frame, other))}>
          Match by itself
        </Button>
        <Button off={busy} aria-expanded={byPoints} onClick={() => setByPoints(!byPoints)}>
          Match two points
        </Button>
        <Button off={busy} onClick={() => start(() => matchLightTo(studio, frame, other))}>
          Match brightness and white
        </Button>
        {others.length > 1 && (
          <Button off={busy} onClick={() => start(() => matchOthers(studio, frame, report))}>
            Match all others to this one
          </Button>
        )}
      </Row>
      {busy && (
        <UnderWay
          label="Matching"
          done={progress.done}
          total={progress.total}
          of="pictures"
          onStop={() => studio.tasks.stop('matching')}
        />
      )}
      {told !== undefined && !busy && <Notice kind={told.kind}>{told.text}</Notice>}
      {byPoints && (
        <TwoPoints
          key={`${frame.id} ${other.id}`}
          job={job}
          frame={frame}
          other={other}
          onDone={() => setByPoints(false)}
        />
      )}
    </Stack>
  );
};
