/** What a person chooses as a scene. Loaded with the Shoot bench. */
import type { Studio } from '../studio.ts';
import { addScene } from './add-scene.ts';

export { acceptedScenes } from '../../core/stage/scene-kinds.ts';

/** Never rejects. */
export const takeScene = async (studio: Studio, files: readonly File[]): Promise<void> => {
  const given = files.map((file) => ({
    name: file.name,
    path: file.webkitRelativePath || file.name,
    file,
  }));
  await addScene(studio, given);
};

/** The table in the gift shop; its address comes with the bench, the file when it is asked for. */
const ours = import.meta.glob<string>('../../../demo-scenes/shop-table/*.glb', {
  query: '?url',
  import: 'default',
  eager: true,
});

/** Never rejects. */
export const takeOurScene = async (studio: Studio): Promise<void> => {
  const [address = ''] = Object.values(ours);
  try {
    const answer = await fetch(address);
    if (!answer.ok) throw new Error(answer.statusText);
    const name = 'gift shop table.glb';
    await addScene(studio, [{ name, path: name, file: await answer.blob() }]);
  } catch {
    studio.tell('Our scene could not be fetched. Check the connection and try again.');
  }
};
