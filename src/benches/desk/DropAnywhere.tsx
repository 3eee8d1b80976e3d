import type { ReactNode } from 'react';
import { useEffect } from 'react';
import { handOverDrop, handOverFiles } from '../../studio/frames/hand-over.ts';
import { useFileDrop } from '../../ui/index.ts';
import { useDocument, useStudio } from '../studio.ts';
import styles from './DropAnywhere.module.css';

const isTyping = (target: EventTarget | null): boolean =>
  target instanceof Element && target.closest('input, textarea, [contenteditable]') !== null;

/** Files that are pasted, anywhere but into a field that takes text. */
const usePaste = (): void => {
  const studio = useStudio();
  useEffect(() => {
    const onPaste = ({ clipboardData, target }: ClipboardEvent) => {
      const files = [...(clipboardData?.files ?? [])];
      if (files.length > 0 && !isTyping(target)) void handOverFiles(studio, files);
    };
    addEventListener('paste', onPaste);
    return () => removeEventListener('paste', onPaste);
  }, [studio]);
};

/** The whole page takes files, folders and zips, dropped or pasted. */
export const DropAnywhere = ({
  className,
  children,
}: {
  readonly className: string | undefined;
  readonly children: ReactNode;
}) => {
  const studio = useStudio();
  const isDemo = useDocument(({ job }) => job.demo !== undefined);
  usePaste();
  const { over, handlers } = useFileDrop((transfer) => handOverDrop(studio, transfer));
  return (
    <div className={className} data-over={over || undefined} {...handlers}>
      {children}
      {over && (
        <div className={styles['invitation']} aria-hidden="true">
          <p>{isDemo ? 'Let go to begin a job of your own' : 'Let go to add frames'}</p>
        </div>
      )}
    </div>
  );
};
