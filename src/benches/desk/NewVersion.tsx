/** A newer studio is there: quiet, and never by itself. */
import { useWork } from '../../state/hooks.ts';
import { Button, Notice } from '../../ui/index.ts';
import { changeOver } from '../../studio/keep/offline.ts';
import styles from './Desk.module.css';

export const NewVersion = () => {
  const newVersion = useWork((work) => work.newVersion);
  if (newVersion === undefined) return null;
  return (
    <div className={styles['notice']}>
      <Notice kind="info" title="A new version is ready">
        <p>
          {newVersion === 'busy'
            ? 'Something is being woven, here or in another tab. Change over when it is done.'
            : 'Changing over loads every open tab of the studio anew. Jobs stay as they are; save woven sheets first.'}
        </p>
        <p>
          <Button onClick={() => void changeOver()}>Change over now</Button>
        </p>
      </Notice>
    </div>
  );
};
