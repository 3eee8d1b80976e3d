/** From a file to a scene in memory; each loader comes in a chunk of its own. */
import type { FileToRead } from '../../src/contract/frames.ts';
import type { LoadedScene } from './loaded.ts';
import type { SceneFiles, SceneKind } from './scene-files.ts';
import { sceneFilesOf } from './scene-files.ts';
import { refuseScene } from './refuse.ts';

type Load = (scene: SceneFiles) => Promise<LoadedScene>;

const gltf: Load = async (scene) => (await import('./load-gltf.ts')).loadGltf(scene);

const loaders: Partial<Record<SceneKind, Load>> = { glb: gltf, gltf };

/** @throws StudioError */
export const loadScene = async (file: FileToRead): Promise<LoadedScene> => {
  const scene = await sceneFilesOf(file);
  const load = loaders[scene.kind];
  if (load === undefined)
    throw refuseScene(scene.main, 'is of a kind the stage does not read.', 'unsupported-variant');
  return load(scene);
};
