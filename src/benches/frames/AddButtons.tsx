import type { ChangeEvent } from 'react';
import { useRef } from 'react';
import { arrive } from '../../studio/frames/arrive.ts';
import { acceptedFiles, gatherFiles } from '../../studio/keep/browser.ts';
import { Button } from '../../ui/index.ts';
import { useStudio } from '../studio.ts';
import styles from './frames.module.css';

/** `webkitdirectory` under React's types, which do not know it. */
const wholeFolders = { webkitdirectory: '' };

/** Two ways to choose; the bench around them takes drops. */
export const AddButtons = () => {
  const studio = useStudio();
  const files = useRef<HTMLInputElement>(null);
  const folder = useRef<HTMLInputElement>(null);
  const onChosen = (event: ChangeEvent<HTMLInputElement>) => {
    const chosen = [...(event.target.files ?? [])];
    // So that the same file can be chosen again.
    event.target.value = '';
    if (chosen.length > 0) void arrive(studio, (signal) => gatherFiles(chosen, signal));
  };
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
