/** A slice of the print, to test the cure on a scrap of lens before a sheet is spent. */
import { weaveSlice } from '../../../studio/weave/slice.ts';
import { CautionNotes } from '../../desk/CautionNotes.tsx';
import { MakeFile } from '../../desk/MakeFile.tsx';
import { useJob, useStudio } from '../../studio.ts';
import { Prose, Stack } from '../../../ui/index.ts';

export const SlicePart = () => {
  const job = useJob();
  const studio = useStudio();
  return (
    <Stack gap={2}>
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
        onWeave={(asked) => void weaveSlice(studio, asked)}
      />
    </Stack>
  );
};
