/** Reads the phone's code: by this computer's camera, or pasted. */
import { useEffect, useRef, useState } from 'react';
import { readPhoneCode } from '../../../studio/beside/camera.ts';
import { BlankField, Button, Notice } from '../../../ui/index.ts';
import styles from './beside.module.css';

interface Props {
  onCode(code: string): void;
}

const Camera = ({ onCode, onFailed }: Props & { onFailed(message: string): void }) => {
  const video = useRef<HTMLVideoElement>(null);
  const told = useRef({ onCode, onFailed });
  useEffect(() => {
    told.current = { onCode, onFailed };
  });
  useEffect(() => {
    const stop = new AbortController();
    const element = video.current;
    if (element !== null)
      readPhoneCode(element, stop.signal).then(
        (code) => told.current.onCode(code),
        (error: unknown) => {
          if (!stop.signal.aborted)
            told.current.onFailed(error instanceof Error ? error.message : String(error));
        },
      );
    return () => stop.abort();
  }, []);
  // Mirrored, as everybody knows themselves; the code is read from the picture as it is.
  return <video ref={video} className={styles['mirror']} muted playsInline />;
};

export const CodeReader = ({ onCode }: Props) => {
  const [camera, setCamera] = useState<'off' | 'on' | { readonly failed: string }>('off');
  return (
    <div className={styles['reader']}>
      {camera === 'on' ? (
        <Camera onCode={onCode} onFailed={(failed) => setCamera({ failed })} />
      ) : (
        <Button look="primary" onClick={() => setCamera('on')}>
          Read it with this computer’s camera
        </Button>
      )}
      {typeof camera === 'object' && <Notice kind="caution">{camera.failed}</Notice>}
      <BlankField
        label="Or paste the phone’s code"
        value=""
        onCommit={(text) => {
          if (text !== '') onCode(text);
          return undefined;
        }}
      />
    </div>
  );
};
