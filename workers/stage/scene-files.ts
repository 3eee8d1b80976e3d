/** The files of a scene: the one that was given, or those in its zip. */
import { unzipSync } from 'fflate';
import type { FileToRead } from '../../src/contract/frames.ts';
import { isLitter, plainPath } from '../../src/core/names/paths.ts';
import type { SceneKind } from '../../src/core/stage/scene-kinds.ts';
import { sceneKindOf, sceneKinds } from '../../src/core/stage/scene-kinds.ts';
import { refuseScene } from './refuse.ts';

/** Bytes of all files together, unpacked: what a browser's worker holds with room for the scene itself. */
const BYTES_AT_MOST = 2 ** 30;
const FILES_AT_MOST = 2000;

/** Those that are told to a person. */
const READ = '.glb, .gltf, .usdz, .usda, .obj, .ply, .stl';

export interface SceneFiles {
  /** Path of the scene itself. */
  readonly main: string;
  readonly kind: SceneKind;
  /** By path, folders and name, "/" between. */
  readonly files: ReadonlyMap<string, Uint8Array<ArrayBuffer>>;
}

/** @throws StudioError for one that is damaged or unpacks to too much */
export const unzipScene = (
  bytes: Uint8Array<ArrayBuffer>,
  name: string,
): Map<string, Uint8Array<ArrayBuffer>> => {
  let [total, count] = [0, 0];
  try {
    const found = unzipSync(bytes, {
      filter: ({ name: path, originalSize }) => {
        if (path.endsWith('/') || isLitter(path)) return false;
        total += originalSize;
        count += 1;
        if (total > BYTES_AT_MOST || count > FILES_AT_MOST)
          throw refuseScene(
            name,
            `unpacks to more than ${FILES_AT_MOST} files or ${BYTES_AT_MOST / 2 ** 30} GB, the most a scene may take here. Leave out what it does not need.`,
            'too-large',
          );
        return true;
      },
    });
    return new Map(Object.entries(found).map(([path, content]) => [plainPath(path), content]));
  } catch (error) {
    if (error instanceof Error && error.name === 'StudioError') throw error;
    throw refuseScene(name, 'is a damaged zip. Pack it again, or add the files themselves.');
  }
};

export const isZip = (bytes: Uint8Array): boolean =>
  bytes[0] === 0x50 && bytes[1] === 0x4b && bytes[2] === 3 && bytes[3] === 4;

/** Of several, the one nearest to the top; of these, the first in the order of `sceneKinds`. */
const mainOf = (paths: Iterable<string>): string | undefined =>
  [...paths]
    .filter((path) => sceneKindOf(path) !== undefined)
    .sort((a, b) => {
      const rank = (path: string) =>
        100 * path.split('/').length + sceneKinds.indexOf(sceneKindOf(path) ?? 'stl');
      return rank(a) - rank(b) || a.localeCompare(b);
    })[0];

/** @throws StudioError */
export const sceneFilesOf = async ({ file, name }: FileToRead): Promise<SceneFiles> => {
  if (file.size > BYTES_AT_MOST)
    throw refuseScene(name, 'is larger than 1 GB, the most a scene may take here.', 'too-large');
  const bytes = new Uint8Array(await file.arrayBuffer());
  if (bytes.length === 0) throw refuseScene(name, 'is empty. Export it again.');
  const own = sceneKindOf(name);
  if (!isZip(bytes) || own === 'usdz') {
    if (own === undefined)
      throw refuseScene(name, `is no scene that the stage reads: ${READ}.`, 'unsupported-variant');
    return { main: name, kind: own, files: new Map([[name, bytes]]) };
  }
  const files = unzipScene(bytes, name);
  const main = mainOf(files.keys());
  const kind = main === undefined ? undefined : sceneKindOf(main);
  if (main === undefined || kind === undefined)
    throw refuseScene(name, `holds no scene that the stage reads: ${READ}.`, 'unsupported-variant');
  return { main, kind, files };
};
