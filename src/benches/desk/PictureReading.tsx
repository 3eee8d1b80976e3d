/** A picture that is read: dropped, chosen, or taken with the camera of a phone; then how far it is, and how it went. */
import type { ReactNode } from 'react';
import { Suspense, useState } from 'react';
import type { PictureKind } from '../../state/tasks.ts';
import { Button, FileButton, FileDrop, Notice, UnderWay } from '../../ui/index.ts';
import { useStudio, useTask } from '../studio.ts';
import { latePart } from './late-part.tsx';
import styles from './PictureReading.module.css';

const FromPhone = latePart(() => import('./beside/FromPhone.tsx'));

/** `camera` where a phone's camera is offered as well. */
const words = {
  stripPhoto: {
    noun: 'photo',
    choose: 'Choose a photo',
    camera: 'Take a photo',
    drop: 'or drop it here.',
  },
  printPhoto: {
    noun: 'photo',
    choose: 'Choose a photo of the print',
    camera: 'Photograph the print',
    drop: 'or drop it here.',
  },
  lensScan: {
    noun: 'scan',
    choose: 'Choose a scan',
    camera: undefined,
    drop: 'or drop it here: PNG, TIFF or JPEG.',
  },
} as const satisfies Record<PictureKind, unknown>;

const accept = 'image/*,.tif,.tiff';

interface Props {
  readonly kind: PictureKind;
  /** Said in place of the drop, where a picture could not be read yet. */
  readonly notYet?: ReactNode;
  /** What was read. */
  readonly children: ReactNode;
  onFile(file: File): void;
}

export const PictureReading = ({ kind, notYet, children, onFile }: Props) => {
  const { tasks } = useStudio();
  const picture = useTask(kind);
  const [linking, setLinking] = useState(false);
  const { noun, choose, camera, drop } = words[kind];
  const take = ([file]: readonly [File, ...File[]]) => onFile(file);
  return (
    <>
      {picture.stage === 'reading' ? (
        <UnderWay
          label={`Reading the ${noun}`}
          done={Math.round(picture.share * 100)}
          total={100}
          of="hundredths"
          onStop={() => tasks.stop(kind)}
        />
      ) : (
        notYet || (
          <FileDrop onFile={onFile}>
            <FileButton label={choose} accept={accept} onFiles={take} />
            {camera !== undefined && (
              <>
                <FileButton label={camera} accept={accept} capture="environment" onFiles={take} />
                <Button className={styles['fromPhone']} onClick={() => setLinking(true)}>
                  From my phone
                </Button>
              </>
            )}
            <small>{drop}</small>
          </FileDrop>
        )
      )}
      {linking && camera !== undefined && (
        <Suspense>
          <FromPhone title={camera} onFile={onFile} onClose={() => setLinking(false)} />
        </Suspense>
      )}
      <div role="status">
        {picture.stage === 'stopped' && <p>Stopped.</p>}
        {picture.stage === 'failed' && (
          <Notice kind="problem" title={`The ${noun} was not read`}>
            {picture.message}
          </Notice>
        )}
      </div>
      {picture.stage === 'read' && children}
    </>
  );
};
