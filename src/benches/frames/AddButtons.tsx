import type { ChangeEvent } from 'react';
import { useRef } from 'react';
import { acceptedFiles, gatherFiles } from '../../files/arrivals.ts';
import { Button } from '../../ui/index.ts';
import { arrive } from '../../studio/frames/arrive.ts';
import styles from './frames.module.css';

const onChosen = (event: ChangeEvent<HTMLInputElement>) => {
  const files = [...(event.target.files ?? [])];
  // So that the same file can be chosen again.
  event.target.value = '';
  if (files.length > 0) void arrive((signal) => gatherFiles(files, signal));
};

/** `webkitdirectory` under React's types, which do not know it. */
const wholeFolders = { webkitdirectory: '' };

/** Two ways to choose; the bench around them takes drops. */
export const AddButtons = () => {
  const files = useRef<HTMLInputElement>(null);
  const folder = useRef<HTMLInputElement>(null);
  return (
    <div className={styles['row']}>
      <Button look="primary" onClick={() => files.current?.click()}>
        Add frames
      </Button>
      <Button onClick={() => folder.current?.click()}>Add a folder</Button>
      <input
        ref={files}
        type="file"
        multiple
        accept={acceptedFiles}
        aria-label="Add frames"
        className="unseen"
        tabIndex={-1}
        onChange={onChosen}
      />
      <input
        ref={folder}
        type="file"
        multiple
        {...wholeFolders}
        aria-label="Add a folder"
        className="unseen"
        tabIndex={-1}
        onChange={onChosen}
      />
    </div>
  );
};
