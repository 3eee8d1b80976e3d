/** PLY, text and binary: triangles, with colours at their corners where it has them. */
import { PLYLoader } from 'three/addons/loaders/PLYLoader.js';
import type { LoadedScene } from './loaded.ts';
import { NO_MATERIALS, plainMesh } from './plain-mesh.ts';
import { refuseScene } from './refuse.ts';
import type { SceneFiles } from './scene-files.ts';

const HEAD_BYTES = 65536;
const COUNT_AT_MOST = 40e6;

/** Each element line with its properties. Elements without any would be counted for nothing, for hours. */
const checkHead = (head: string, name: string): void => {
  const end = head.indexOf('end_header');
  if (!head.startsWith('ply') || end < 0) throw refuseScene(name, 'does not begin as a PLY does.');
  const elements = head
    .slice(0, end)
    .split(/^element /m)
    .slice(1);
  for (const element of elements) {
    const [, kind = '', count = ''] = /^(\S+)\s+(\d+)/.exec(element) ?? [];
    if (count === '' || (Number(count) > 0 && !/^property /m.test(element)))
      throw refuseScene(name, `has an element (${kind.slice(0, 40)}) without count or properties.`);
    if (Number(count) > COUNT_AT_MOST)
      throw refuseScene(
        name,
        `speaks of ${count} parts; the stage takes ${COUNT_AT_MOST / 1e6} million.`,
        'too-large',
      );
  }
  if (!elements.some((element) => /^face\s+[1-9]/.test(element)))
    throw refuseScene(
      name,
      'holds points without faces. Make a mesh of them first.',
      'unsupported-variant',
    );
};

/** @throws StudioError */
export const loadPly = ({ main, files }: SceneFiles): Promise<LoadedScene> => {
  const bytes = (files.get(main) ?? new Uint8Array()).slice();
  checkHead(new TextDecoder('latin1').decode(bytes.subarray(0, HEAD_BYTES)), main);
  const geometry = new PLYLoader().parse(bytes.buffer);
  return Promise.resolve({
    kind: 'PLY',
    root: plainMesh(geometry),
    clips: [],
    unitMm: undefined,
    notes: geometry.hasAttribute('color') ? [] : [NO_MATERIALS],
  });
};
