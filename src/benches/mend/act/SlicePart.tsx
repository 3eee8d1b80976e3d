/** A slice of the print, to test the cure on a scrap of lens before a sheet is spent. */
import { weaveSlice } from '../../../studio/weave/slice.ts';
import { CautionNotes } from '../../desk/CautionNotes.tsx';
import { MakeFile } from '../../desk/MakeFile.tsx';
import { useJob, useStudio } from '../../studio.ts';
import { Prose } from '../../../ui/index.ts';
import styles from '../mend.module.css';

export const SlicePart = () => {
  const job = useJob();
  const studio = useStudio();
  return (
    <div className={styles['slice']}>
      <h3>Test it on a scrap first</h3>
      <Prose>
        A slice of the print at its full width, as the job stands now. Print it the same way round,
        cut a scrap of lens, lay it on and look before you spend a sheet.
      </Prose>
      <CautionNotes kinds={['blades', 'edges']} />
      <MakeFile
        kind="slice"
        name="slice"
        off={job.frames.length === 0}
        plain
        onWeave={() => void weaveSlice(studio)}
      />
    </div>
  );
};
