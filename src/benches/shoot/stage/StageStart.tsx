/** The way in: a scene of one’s own, or ours to try. */
import { acceptedScenes, takeOurScene, takeScene } from '../../../studio/stage/hand-in.ts';
import { Button, FileButton, Prose, Row } from '../../../ui/index.ts';
import { useIsRunning, useStudio } from '../../studio.ts';

export const AddScene = ({ look = 'plain' }: { readonly look?: 'primary' | 'plain' }) => {
  const studio = useStudio();
  return (
    <FileButton
      label="Add scene"
      look={look}
      multiple
      accept={acceptedScenes}
      onFiles={(files) => void takeScene(studio, files)}
    />
  );
};

export const StageStart = () => {
  const studio = useStudio();
  const coming = useIsRunning('scene');
  return (
    <Row gap="2 3">
      <AddScene />
      <Button look="quiet" onClick={() => void takeOurScene(studio)}>
        Try it with our scene
      </Button>
      <Prose as="span" role="status">
        {coming
          ? 'The scene is being read …'
          : 'A 3D scene as a file is shown through this rig, and the studio renders the first views.'}
      </Prose>
    </Row>
  );
};
