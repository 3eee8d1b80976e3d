/** Saves the job to a file and opens one, by button and by key. */
import type { ChangeEvent } from 'react';
import { useRef } from 'react';
import { createPortal } from 'react-dom';
import { useStore } from 'zustand';
import { BUNDLE_MIME, canChooseFile } from '../../../studio/keep/browser.ts';
import { Button } from '../../../ui/index.ts';
import { useStudio } from '../../studio.ts';
import styles from './job-file.module.css';
import { useJobFileKeys } from './use-job-file-keys.ts';
import { useSaveAndOpen } from './use-save-and-open.ts';

export const JobFileButtons = () => {
  const { jobFile } = useStudio();
  const input = useRef<HTMLInputElement>(null);
  const busy = useStore(jobFile.store, ({ work }) => work !== undefined);
  const { save, open } = useSaveAndOpen();
  const choose = () => input.current?.click();
  useJobFileKeys({ save: (anew) => void save(anew), choose });
  const onChosen = (event: ChangeEvent<HTMLInputElement>) => {
    const file = event.target.files?.[0];
    // So that the same file can be chosen again.
    event.target.value = '';
    if (file !== undefined) void open(file);
  };
  return (
    <div className={styles['tools']} role="group" aria-label="Job file">
      <Button look="quiet" off={busy} title="Ctrl+S" onClick={() => void save(false)}>
        Save job file
      </Button>
      {canChooseFile() && (
        <Button look="quiet" off={busy} title="Ctrl+Shift+S" onClick={() => void save(true)}>
          Save as
        </Button>
      )}
      <Button look="quiet" off={busy} title="Ctrl+O" onClick={choose}>
        Open job file
      </Button>
      {/* Behind everything, the button speaks for it: a page's first file input is the open bench's own. */}
      {createPortal(
        <input
          ref={input}
          type="file"
          accept={`.zip,${BUNDLE_MIME}`}
          aria-label="Open job file"
          aria-hidden
          className="unseen"
          tabIndex={-1}
          onChange={onChosen}
        />,
        document.body,
      )}
    </div>
  );
};
