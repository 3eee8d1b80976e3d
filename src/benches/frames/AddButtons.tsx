import { acceptedFiles, gatherFiles } from '../../studio/frames/gather.ts';
import { receive } from '../../studio/frames/receive.ts';
import { FileButton, Row } from '../../ui/index.ts';
import { useStudio } from '../studio.ts';

/** Two ways to choose; the bench around them takes drops. */
export const AddButtons = () => {
  const studio = useStudio();
  const take = (files: readonly File[]) =>
    void receive(studio, (signal) => gatherFiles(files, signal), { adding: true });
  return (
    <Row gap={2}>
      <FileButton
        label="Add frames"
        look="primary"
        multiple
        accept={acceptedFiles}
        onFiles={take}
      />
      <FileButton label="Add a folder" folder onFiles={take} />
    </Row>
  );
};
