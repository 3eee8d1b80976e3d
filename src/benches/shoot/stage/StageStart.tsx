/** The way in: a scene of one’s own. */
import { acceptedScenes, takeScene } from '../../../studio/stage/hand-in.ts';
import { FileButton, Prose, Row } from '../../../ui/index.ts';
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
  const coming = useIsRunning('scene');
  return (
    <Row gap="2 3">
      <AddScene />
      <Prose as="span" role="status">
        {coming
          ? 'The scene is being read …'
          : 'Have the scene as .glb or glTF? See it through this rig, and let the studio render the first views.'}
      </Prose>
    </Row>
  );
};
