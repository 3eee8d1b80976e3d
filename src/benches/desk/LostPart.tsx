/** A part of the studio did not come: why, and what to do. */
import type { WorkState } from '../../state/work.ts';
import { Button, Notice } from '../../ui/index.ts';
import { useWork } from '../studio.ts';
import styles from './Desk.module.css';

const words: Readonly<Record<NonNullable<WorkState['lostPart']>, string>> = {
  newer:
    'The studio on the server is newer than this page, and the part that was asked for is no longer there. ' +
    'Reload the page to get the newer one.',
  unreachable:
    'The server that this page came from does not answer, and this browser does not keep the studio yet. ' +
    'Wait until the network is back, then reload the page.',
  unknown: 'The server did not give it, though it is there. Reload the page.',
};

export const LostPart = () => {
  const lostPart = useWork((work) => work.lostPart);
  if (lostPart === undefined) return null;
  return (
    <div className={styles['notice']}>
      <Notice kind="problem" title="A part of the studio could not be loaded" announce>
        <p>{words[lostPart]} The job stays as it is; save woven sheets first.</p>
        <p>
          <Button onClick={() => location.reload()}>Reload the page</Button>
        </p>
      </Notice>
    </div>
  );
};

/** In the place of what did not come. */
export const Missing = () => (
  <p className={styles['opening']}>This part could not be loaded. Above is written why.</p>
);
