import { acceptedFiles, gatherFiles } from '../../studio/frames/gather.ts';
import { receive } from '../../studio/frames/receive.ts';
import { FileButton } from '../../ui/index.ts';
import { useStudio } from '../studio.ts';
import styles from './frames.module.css';

/** Two ways to choose; the bench around them takes drops. */
export const AddButtons = () => {
  const studio = useStudio();
  const take = (files: readonly File[]) =>
    void receive(studio, (signal) => gatherFiles(files, signal), { adding: true });
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
