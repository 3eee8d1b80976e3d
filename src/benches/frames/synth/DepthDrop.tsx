import { useRef, useState } from 'react';
import { useStore } from 'zustand';
import { Button } from '../../../ui/index.ts';
import { setSynth, synthStore } from '../../../studio/frames/made/state.ts';
import styles from './synth.module.css';

let serial = 0;

const take = (files: FileList | null): void => {
  const file = files?.[0];
  if (file === undefined) return;
  serial += 1;
  setSynth({
    depth: { key: `depth-${serial}`, name: file.name, file },
    stage: { kind: 'idle' },
  });
};

/** The depth map: chosen, or dropped here rather than among the frames. */
export const DepthDrop = () => {
  const depth = useStore(synthStore, (state) => state.depth);
  const input = useRef<HTMLInputElement>(null);
  const [over, setOver] = useState(false);
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
