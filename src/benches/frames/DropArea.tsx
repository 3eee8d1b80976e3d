import type { DragEvent, ReactNode } from 'react';
import { useEffect, useState } from 'react';
import { gatherDrop } from '../../files/arrivals.ts';
import { arrive } from './arrive.ts';
import styles from './DropArea.module.css';

const holdsFiles = (transfer: DataTransfer | null): boolean =>
  transfer?.types.includes('Files') ?? false;

/** A drop beside the bench would make the browser leave the page for the file. */
const useNoStrayDrops = () => {
  useEffect(() => {
    const refuse = (event: globalThis.DragEvent) => {
      if (!holdsFiles(event.dataTransfer) || event.defaultPrevented) return;
      event.preventDefault();
      if (event.dataTransfer !== null) event.dataTransfer.dropEffect = 'none';
    };
    addEventListener('dragover', refuse);
    addEventListener('drop', refuse);
    return () => {
      removeEventListener('dragover', refuse);
      removeEventListener('drop', refuse);
    };
  }, []);
};

/**
 * The whole bench takes files, folders and zips. It listens before its children do, which have drags
 * of their own and know nothing of files.
 */
export const DropArea = ({ children }: { readonly children: ReactNode }) => {
  const [over, setOver] = useState(false);
  useNoStrayDrops();
  const take = (event: DragEvent): boolean => {
    if (!holdsFiles(event.dataTransfer)) return false;
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
    void arrive((signal) => gatherDrop(dataTransfer, signal));
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
