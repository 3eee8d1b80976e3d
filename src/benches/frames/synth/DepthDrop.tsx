import { useRef, useState } from 'react';
import { useStore } from 'zustand';
import { Button } from '../../../ui/index.ts';
import { useStudio } from '../../studio.ts';
import styles from './synth.module.css';

/** The depth map: chosen, or dropped here rather than among the frames. */
export const DepthDrop = () => {
  const { made } = useStudio();
  const depth = useStore(made.store, (state) => state.depth);
  const input = useRef<HTMLInputElement>(null);
  const [over, setOver] = useState(false);
  const take = (files: FileList | null): void => {
    const file = files?.[0];
    if (file === undefined) return;
    made.set({
      depth: { key: made.nextDepthKey(), name: file.name, file },
      stage: { kind: 'idle' },
    });
  };
  return (
    <div
      data-own-drop=""
      className={styles['drop']}
      data-over={over || undefined}
      onDragOver={(event) => {
        event.preventDefault();
        event.dataTransfer.dropEffect = 'copy';
        setOver(true);
      }}
      onDragLeave={() => setOver(false)}
      onDrop={(event) => {
        event.preventDefault();
        setOver(false);
        take(event.dataTransfer.files);
      }}
    >
      <Button onClick={() => input.current?.click()}>
        {depth === undefined ? 'Choose depth map' : 'Another depth map'}
      </Button>
      <input
        ref={input}
        type="file"
        accept=".png,.tif,.tiff,.exr,image/png,image/tiff"
        aria-label="Depth map"
        className="unseen"
        tabIndex={-1}
        onChange={(event) => {
          take(event.target.files);
          event.target.value = '';
        }}
      />
      <p className={styles['note']}>
        {depth === undefined
          ? 'Or drop it here: grey PNG or TIFF, 8 or 16 bit, or OpenEXR.'
          : depth.name}
      </p>
    </div>
  );
};
