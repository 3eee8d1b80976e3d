/** A newer studio is there: quiet, and never by itself. */
import { Button, Notice } from '../../ui/index.ts';
import { useStudio, useWork } from '../studio.ts';
import styles from './Desk.module.css';

export const NewVersion = () => {
  const { updates } = useStudio();
  const newVersion = useWork((work) => work.newVersion);
  if (newVersion === undefined) return null;
  return (
    <div className={styles['notice']}>
      <Notice kind="info" title="A new version is ready">
        <p>
          {newVersion === 'busy'
            ? 'Something is being woven, here or in another tab. Update when it is done.'
            : 'An update reloads every open tab of the studio. Jobs stay as they are; save woven sheets first.'}
        </p>
        <p>
          <Button onClick={() => void updates.updateNow()}>Update now</Button>
        </p>
      </Notice>
    </div>
  );
};
