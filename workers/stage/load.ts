/** From a file to a scene in memory; each loader comes in a chunk of its own. */
import type { FileToRead } from '../../src/contract/frames.ts';
import type { LoadedScene } from './loaded.ts';
import type { SceneKind } from '../../src/core/stage/scene-kinds.ts';
import type { SceneFiles } from './scene-files.ts';
import { sceneFilesOf } from './scene-files.ts';
import { asSceneError } from './refuse.ts';

type Load = (scene: SceneFiles) => Promise<LoadedScene>;

const gltf: Load = async (scene) => (await import('./load-gltf.ts')).loadGltf(scene);

const usd: Load = async (scene) => (await import('./load-usd.ts')).loadUsd(scene);

const loaders: Readonly<Record<SceneKind, Load>> = {
  glb: gltf,
  gltf,
  usdz: usd,
  usda: usd,
  usdc: usd,
  usd,
  obj: async (scene) => (await import('./load-obj.ts')).loadObj(scene),
  ply: async (scene) => (await import('./load-ply.ts')).loadPly(scene),
  stl: async (scene) => (await import('./load-stl.ts')).loadStl(scene),
};

/** @throws StudioError */
export const loadScene = async (file: FileToRead): Promise<LoadedScene> => {
  const scene = await sceneFilesOf(file);
  try {
    return await loaders[scene.kind](scene);
  } catch (error) {
    throw asSceneError(error, scene.main);
  }
};
