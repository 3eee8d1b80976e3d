/** Frames came to a job that has some: what becomes of them is asked once. */
import { nameInText } from '../../core/names/shown.ts';
import { sayFrames } from '../../job/words/frames.ts';
import type { WorkState } from '../../state/work.ts';
import { Button, ModalWindow, Name } from '../../ui/index.ts';
import { useDocument } from '../studio.ts';
import styles from './DropQuestion.module.css';

const Question = ({ count, from, answer }: NonNullable<WorkState['dropQuestion']>) => {
  const { name, frames, pitchStrip } = useDocument((state) => state.job);
  return (
    <ModalWindow
      title={
        <>
          {sayFrames(count)}
          {from === '' ? '' : ` of “${nameInText(from)}”`}: what should become of{' '}
          {count === 1 ? 'it' : 'them'}?
        </>
      }
      onCancel={() => answer('nothing')}
    >
      <p>
        “<Name>{name}</Name>” is open and has {sayFrames(frames.length)}.
      </p>
      <div className={styles['choices']}>
        <Button look="primary" onClick={() => answer('new job')}>
          Begin a new job
        </Button>
        {count === 1 && pitchStrip?.woven !== undefined && (
          <Button onClick={() => answer('photo of strip')}>Read it as a photo of the strip</Button>
        )}
        {count === 1 && frames.length > 0 && (
          <Button onClick={() => answer('photo of print')}>Read it as a photo of the print</Button>
        )}
        <Button onClick={() => answer('add')}>Add to this job</Button>
        <Button onClick={() => answer('replace')}>Replace its frames</Button>
        <Button look="quiet" onClick={() => answer('nothing')}>
          Leave it
        </Button>
      </div>
    </ModalWindow>
  );
};

export default Question;
