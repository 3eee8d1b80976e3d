import { Button, ProgressBar } from '../../ui/index.ts';
import { useStudio, useWork } from '../studio.ts';
import styles from './frames.module.css';

/** How far a batch has come, and its stop. */
export const ArrivalStatus = () => {
  const { arrivals } = useStudio();
  const arriving = useWork((work) => work.arriving);
  if (arriving === undefined) return null;
  const { done, total } = arriving;
  return (
    <div className={styles['arriving']}>
      {total === 0 ? (
        <p>Gathering files …</p>
      ) : (
        <ProgressBar
          label={`Looking at ${Math.min(done + 1, total)} of ${total}`}
          done={done}
          total={total}
          of="files"
        />
      )}
      <Button onClick={arrivals.stop}>Stop</Button>
    </div>
  );
};
