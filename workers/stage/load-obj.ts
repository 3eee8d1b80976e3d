/** OBJ with its material file and textures, where they were given. */
import { MTLLoader } from 'three/addons/loaders/MTLLoader.js';
import { OBJLoader } from 'three/addons/loaders/OBJLoader.js';
import { isMesh } from './facts.ts';
import type { LoadedScene } from './loaded.ts';
import { localFiles, pathInFiles } from './local-files.ts';
import { weighPicturesIn } from './pictures.ts';
import { NO_MATERIALS, plainMesh } from './plain-mesh.ts';
import { refuseScene } from './refuse.ts';
import type { SceneFiles } from './scene-files.ts';

/** What a browser holds as one text. */
const TEXT_AT_MOST = 400 * 2 ** 20;

const textOf = ({ main, files }: SceneFiles, path: string): string => {
  const bytes = files.get(path) ?? new Uint8Array();
  if (bytes.length > TEXT_AT_MOST)
    throw refuseScene(main, 'is a text of more than 400 MB. Export it as .glb.', 'too-large');
  return new TextDecoder().decode(bytes);
};

/** @throws StudioError */
export const loadObj = async (scene: SceneFiles): Promise<LoadedScene> => {
  const text = textOf(scene, scene.main);
  const named = [...text.matchAll(/^mtllib\s+(.+?)\s*$/gm)].map(([, name = '']) => name);
  const found = named.flatMap((name) => pathInFiles(scene, name) ?? []);
  await weighPicturesIn(scene.files, scene.main);
  const local = localFiles(scene);
  const loader = new OBJLoader(local.manager);
  if (found.length > 0) {
    const materials = new MTLLoader(local.manager).parse(
      found.map((path) => textOf(scene, path)).join('\n'),
      '',
    );
    materials.preload();
    loader.setMaterials(materials);
  }
  const root = loader.parse(text);
  await local.settled();
  local.end();
  if (found.length === 0)
    root.traverse((object) => {
      if (isMesh(object)) object.material = plainMesh(object.geometry).material;
    });
  const missing = named.filter((name) => pathInFiles(scene, name) === undefined);
  return {
    kind: 'OBJ',
    root,
    clips: [],
    unitMm: undefined,
    notes: [
      ...(named.length === 0 ? [NO_MATERIALS] : []),
      ...missing.map(
        (name) =>
          `Its material file ${name.slice(0, 80)} was not given: add the folder or a zip of it.`,
      ),
    ],
  };
};
