/** What a person chooses as a scene. Loaded with the Shoot bench. */
import { gatherFiles } from '../../files/arrivals.ts';
import type { Studio } from '../studio.ts';
import { addScene } from './add-scene.ts';

export { acceptedScenes } from '../../files/scene-name.ts';

/** Never rejects. */
export const takeScene = async (studio: Studio, files: readonly File[]): Promise<void> => {
  const { scene, arrivals } = await gatherFiles(files);
  return addScene(studio, scene ?? arrivals);
};
