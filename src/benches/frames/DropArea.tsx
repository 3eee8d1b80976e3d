import type { ReactNode } from 'react';
import { arrive } from '../../studio/frames/arrive.ts';
import { gatherDrop } from '../../studio/frames/gather.ts';
import { useFileDrop } from '../../ui/index.ts';
import { useStudio } from '../studio.ts';
import styles from './DropArea.module.css';

/** The whole bench takes files, folders and zips. */
export const DropArea = ({ children }: { readonly children: ReactNode }) => {
  const studio = useStudio();
  const { over, handlers } = useFileDrop((transfer) => {
    void arrive(studio, (signal) => gatherDrop(transfer, signal));
  });
  return (
    <div className={styles['area']} data-over={over || undefined} {...handlers}>
      {children}
      {over && (
        <div className={styles['invitation']} aria-hidden="true">
          <p>Let go to add frames</p>
        </div>
      )}
    </div>
  );
};
