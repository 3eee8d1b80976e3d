import { Button, Row, UnderWay } from '../../ui/index.ts';
import { useStudio, useWork } from '../studio.ts';
import styles from './Desk.module.css';

/** How far the files that come have got, and their stop, whatever bench is open. */
export const ArrivalStatus = () => {
  const { tasks } = useStudio();
  const arriving = useWork((work) => work.arriving);
  if (arriving === undefined) return null;
  const { done, total } = arriving;
  const stop = () => {
    for (const kind of ['gathering', 'arrivals', 'demo'] as const) tasks.stop(kind);
  };
  return (
    <div className={styles['notice']}>
      {total === 0 ? (
        <Row gap={4}>
          <p>Gathering files …</p>
          <Button onClick={stop}>Stop</Button>
        </Row>
      ) : (
        <UnderWay
          label={`Looking at ${Math.min(done + 1, total)} of ${total}`}
          done={done}
          total={total}
          of="files"
          onStop={stop}
        />
      )}
    </div>
  );
};

/** What just happened, for those who listen. */
export const LiveRegion = () => {
  const { said, serial } = useWork((work) => work.announced);
  // The same sentence twice in a row is two events: alternate spaces make it new to listeners.
  return (
    <p role="status" className="unseen">
      {said}
      {serial % 2 === 0 ? '' : '\u00a0'}
    </p>
  );
};
