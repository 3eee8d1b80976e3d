/** STL, binary and text: triangles alone. */
import { STLLoader } from 'three/addons/loaders/STLLoader.js';
import type { LoadedScene } from './loaded.ts';
import { NO_MATERIALS, plainMesh } from './plain-mesh.ts';
import { refuseScene } from './refuse.ts';
import type { SceneFiles } from './scene-files.ts';

/** 80 bytes of head and a count, then 50 bytes a triangle. */
const HEAD = 84;
const TRIANGLE = 50;

const startsAsText = (bytes: Uint8Array): boolean =>
  /^\s*solid\b/i.test(new TextDecoder().decode(bytes.subarray(0, 200)));

/** @throws StudioError */
export const loadStl = ({ main, files }: SceneFiles): Promise<LoadedScene> => {
  const bytes = (files.get(main) ?? new Uint8Array()).slice();
  const count = bytes.length < HEAD ? 0 : new DataView(bytes.buffer).getUint32(80, true);
  const fits = HEAD + TRIANGLE * count <= bytes.length;
  if (!startsAsText(bytes) && (count === 0 || !fits))
    throw refuseScene(main, 'is shorter than the triangles it speaks of. Export it again.');
  const geometry = new STLLoader().parse(bytes.buffer);
  return Promise.resolve({
    kind: 'STL',
    root: plainMesh(geometry),
    clips: [],
    unitMm: undefined,
    notes: geometry.hasAttribute('color') ? [] : [NO_MATERIALS],
  });
};
