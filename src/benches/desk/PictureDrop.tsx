/** A place that takes one picture: dropped, chosen, or taken with the camera of a phone. */
import type { ChangeEvent, DragEvent } from 'react';
import { useRef, useState } from 'react';
import { Button } from '../../ui/index.ts';
import { holdsFiles } from './use-no-stray-drops.ts';
import styles from './PictureDrop.module.css';

interface Props {
  /** Accessible name of the button and its file input. */
  readonly label: string;
  /** Named where a phone's camera should be offered as well. */
  readonly cameraLabel?: string;
  readonly words: string;
  readonly onFile: (file: File) => void;
}

export const PictureDrop = ({ label, cameraLabel, words, onFile }: Props) => {
  const chooser = useRef<HTMLInputElement>(null);
  const camera = useRef<HTMLInputElement>(null);
  const [over, setOver] = useState(false);
  const onChosen = (event: ChangeEvent<HTMLInputElement>) => {
    const file = event.target.files?.[0];
    // So that the same file can be chosen again.
    event.target.value = '';
    if (file !== undefined) onFile(file);
  };
  const isFile = (event: DragEvent) => holdsFiles(event.dataTransfer);
  const input = {
    type: 'file',
    accept: 'image/*,.tif,.tiff',
    className: 'unseen',
    tabIndex: -1,
    onChange: onChosen,
  } as const;
  return (
    <div
      className={styles['drop']}
      data-over={over || undefined}
      onDragOver={(event) => {
        if (!isFile(event)) return;
        event.preventDefault();
        setOver(true);
      }}
      onDragLeave={() => setOver(false)}
      onDrop={(event) => {
        if (!isFile(event)) return;
        event.preventDefault();
        setOver(false);
        const file = event.dataTransfer.files[0];
        if (file !== undefined) onFile(file);
      }}
    >
      <Button onClick={() => chooser.current?.click()}>{label}</Button>
      {cameraLabel !== undefined && (
        <Button onClick={() => camera.current?.click()}>{cameraLabel}</Button>
      )}
      <span className={styles['soft']}>{words}</span>
      <input ref={chooser} {...input} aria-label={label} />
      {cameraLabel !== undefined && (
        <input ref={camera} {...input} capture="environment" aria-label={cameraLabel} />
      )}
    </div>
  );
};
