/** What a phone shows that lends its camera to a desk: its answer to the desk's code, then one button. */
import { useStore } from 'zustand';
import { shownCode } from '../../studio/beside/camera.ts';
import type { PhoneSide } from '../../studio/beside/phone-side.ts';
import { FileButton, Notice, ProgressBar } from '../../ui/index.ts';
import { CodePicture } from '../desk/beside/CodePicture.tsx';
import styles from './PhonePage.module.css';

const Showing = ({ code }: { readonly code: string }) => (
  <>
    <p>Hold this code before the desk computer’s camera.</p>
    <CodePicture text={shownCode(code)} label="Code for the desk’s camera" />
    <details>
      <summary>The same to copy and paste</summary>
      <code className={styles['code']}>{code}</code>
    </details>
  </>
);

const Stage = ({ side }: { readonly side: PhoneSide }) => {
  const now = useStore(side.store, (state) => state.now);
  switch (now.stage) {
    case 'making':
      return <p role="status">Looking for the desk …</p>;
    case 'showing':
      return <Showing code={now.code} />;
    case 'linked':
      return (
        <>
          <p role="status">
            {now.share === undefined ? 'The desk is linked.' : 'The picture is on its way.'}
          </p>
          {now.share === undefined ? (
            <div className={styles['choices']}>
              <FileButton
                label="Take a photo"
                look="primary"
                accept="image/*"
                capture="environment"
                onFiles={([file]) => void side.send(file)}
              />
              <FileButton
                label="Choose a picture"
                accept="image/*"
                onFiles={([file]) => void side.send(file)}
              />
            </div>
          ) : (
            <ProgressBar
              label="Going to the desk"
              done={Math.round(now.share * 100)}
              total={100}
              of="hundredths"
            />
          )}
          {now.refused !== undefined && (
            <Notice kind="problem" announce>
              {now.refused}
            </Notice>
          )}
        </>
      );
    case 'done':
      return <p role="status">The desk has the picture. You can close this page.</p>;
    case 'failed':
      return (
        <Notice kind="problem" announce>
          {now.message}
        </Notice>
      );
  }
};

/** @param side begun where the page is opened */
export const PhonePage = ({ side }: { readonly side: PhoneSide }) => (
  <main className={styles['page']}>
    <h1>A photo for the desk</h1>
    <Stage side={side} />
    <p className={styles['soft']}>
      The picture goes straight to the computer that showed the code, and nowhere else.
    </p>
  </main>
);
