import type { DragEvent, ReactNode } from 'react';
import { useState } from 'react';
import { arrive } from '../../studio/frames/arrive.ts';
import { gatherDrop } from '../../studio/keep/browser.ts';
import { holdsFiles, useNoStrayDrops } from '../desk/use-no-stray-drops.ts';
import { useStudio } from '../studio.ts';
import styles from './DropArea.module.css';

/** A part of the bench that takes a file of its own kind is marked `data-own-drop`. */
const isOthers = ({ target }: DragEvent): boolean =>
  target instanceof Element && target.closest('[data-own-drop]') !== null;

/**
 * The whole bench takes files, folders and zips. It listens before its children do, which have drags
 * of their own and know nothing of files.
 */
export const DropArea = ({ children }: { readonly children: ReactNode }) => {
  const studio = useStudio();
  const [over, setOver] = useState(false);
  useNoStrayDrops();
  const take = (event: DragEvent): boolean => {
    if (!holdsFiles(event.dataTransfer)) return false;
    if (isOthers(event)) {
      setOver(false);
      return false;
    }
    event.preventDefault();
    event.stopPropagation();
    return true;
  };
  const onOver = (event: DragEvent) => {
    if (!take(event)) return;
    event.dataTransfer.dropEffect = 'copy';
    setOver(true);
  };
  const onLeave = (event: DragEvent) => {
    if (take(event) && !event.currentTarget.contains(event.relatedTarget as Node | null))
      setOver(false);
  };
  const onDrop = (event: DragEvent) => {
    if (!take(event)) return;
    setOver(false);
    const { dataTransfer } = event;
    void arrive(studio, (signal) => gatherDrop(dataTransfer, signal));
  };
  return (
    <div
      className={styles['area']}
      data-over={over || undefined}
      onDragEnterCapture={onOver}
      onDragOverCapture={onOver}
      onDragLeaveCapture={onLeave}
      onDropCapture={onDrop}
    >
      {children}
      {over && (
        <div className={styles['invitation']} aria-hidden="true">
          <p>Let go to add frames</p>
        </div>
      )}
    </div>
  );
};
