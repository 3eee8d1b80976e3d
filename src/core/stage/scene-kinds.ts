/** Kinds of 3D scenes, by the ending of the file. */

/** In the order in which one of several files counts as the scene itself. */
export const sceneKinds = [
  'glb',
  'gltf',
  'usdz',
  'usda',
  'usdc',
  'usd',
  'obj',
  'ply',
  'stl',
] as const;
export type SceneKind = (typeof sceneKinds)[number];

/** Undefined for any other file. */
export const sceneKindOf = (path: string): SceneKind | undefined => {
  const ending = path.slice(path.lastIndexOf('.')).toLowerCase();
  return sceneKinds.find((kind) => ending === `.${kind}`);
};

export const isSceneName = (path: string): boolean => sceneKindOf(path) !== undefined;

/** For the file input: with what lies beside a scene. */
export const acceptedScenes = [
  ...sceneKinds,
  ...['zip', 'bin', 'mtl', 'png', 'jpg', 'jpeg', 'webp'],
]
  .map((ending) => `.${ending}`)
  .join();
