import { arrive } from '../../studio/frames/arrive.ts';
import { acceptedFiles, gatherFiles } from '../../studio/frames/gather.ts';
import { FileButton } from '../../ui/index.ts';
import { useStudio } from '../studio.ts';
import styles from './frames.module.css';

/** Two ways to choose; the bench around them takes drops. */
export const AddButtons = () => {
  const studio = useStudio();
  const take = (files: readonly File[]) =>
    void arrive(studio, (signal) => gatherFiles(files, signal));
  return (
    <div className={styles['row']}>
      <FileButton
        label="Add frames"
        look="primary"
        multiple
        accept={acceptedFiles}
        onFiles={take}
      />
      <FileButton label="Add a folder" folder onFiles={take} />
    </div>
  );
};
