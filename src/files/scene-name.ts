/** Names of 3D scenes. */
const SCENE = /\.(glb|gltf|usdz|usda|usdc|usd|obj|ply|stl)$/i;

export const isSceneName = (name: string): boolean => SCENE.test(name);

/** For the file input: with what lies beside a scene. */
export const acceptedScenes =
  '.glb,.gltf,.usdz,.usda,.usdc,.usd,.obj,.ply,.stl,.zip,.bin,.mtl,.png,.jpg,.jpeg,.webp';
