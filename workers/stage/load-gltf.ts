/** glTF 2.0, as .glb or as .gltf with the files beside it. */
import { MeshoptDecoder } from 'three/addons/libs/meshopt_decoder.module.js';
import type { DRACOLoader } from 'three/addons/loaders/DRACOLoader.js';
import { GLTFLoader } from 'three/addons/loaders/GLTFLoader.js';
import type { GltfDocument } from './gltf-document.ts';
import { checkGltf } from './gltf-document.ts';
import type { LoadedScene } from './loaded.ts';
import { localFiles, pathInFiles } from './local-files.ts';
import { weighPictures } from './pictures.ts';
import { asSceneError, refuseScene } from './refuse.ts';
import type { SceneFiles } from './scene-files.ts';

interface Parts {
  readonly document: GltfDocument;
  readonly binary: Uint8Array<ArrayBuffer> | undefined;
}

const GLB_MAGIC = 0x46546c67;
const JSON_CHUNK = 0x4e4f534a;
const BIN_CHUNK = 0x004e4942;

/** glTF 2.0, 4: a head of 12 bytes, then chunks with their lengths. */
const partsOfGlb = (bytes: Uint8Array<ArrayBuffer>, name: string): Parts => {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  if (bytes.length < 20 || view.getUint32(0, true) !== GLB_MAGIC)
    throw refuseScene(name, 'does not begin as a .glb does.');
  if (view.getUint32(8, true) > bytes.length)
    throw refuseScene(name, 'breaks off: it is shorter than it says. Copy or export it again.');
  let [document, binary]: [GltfDocument | undefined, Parts['binary']] = [undefined, undefined];
  for (let at = 12; at + 8 <= bytes.length;) {
    const length = view.getUint32(at, true);
    const kind = view.getUint32(at + 4, true);
    if (at + 8 + length > bytes.length) throw refuseScene(name, 'breaks off within a chunk.');
    const chunk = bytes.subarray(at + 8, at + 8 + length);
    if (kind === JSON_CHUNK) document = parsed(chunk, name);
    else if (kind === BIN_CHUNK) binary ??= chunk;
    at += 8 + length;
  }
  if (document === undefined) throw refuseScene(name, 'holds no glTF document.');
  return { document, binary };
};

const parsed = (bytes: Uint8Array, name: string): GltfDocument => {
  try {
    const document: unknown = JSON.parse(new TextDecoder('utf-8', { fatal: true }).decode(bytes));
    if (typeof document === 'object' && document !== null) return document;
  } catch {
    // Said below.
  }
  throw refuseScene(name, 'holds no readable glTF document (JSON).');
};

const bytesOfData = (uri: string): Uint8Array<ArrayBuffer> => {
  const at = uri.indexOf(',');
  const text = uri.slice(at + 1);
  const plain = /;base64$/i.test(uri.slice(0, at)) ? atob(text) : decodeURIComponent(text);
  return Uint8Array.from(plain, (letter) => letter.charCodeAt(0));
};

type Picture = readonly [name: string, bytes: Uint8Array<ArrayBuffer>];

const picturesOf = (scene: SceneFiles, { document, binary }: Parts): Picture[] => {
  const { images = [], bufferViews = [], buffers = [] } = document;
  const bytesOfBuffer = (at: number): Uint8Array<ArrayBuffer> | undefined => {
    const uri = buffers[at]?.uri;
    if (uri === undefined) return at === 0 ? binary : undefined;
    if (uri.startsWith('data:')) return bytesOfData(uri);
    return scene.files.get(pathInFiles(scene, uri) ?? '');
  };
  return images.flatMap(({ uri, bufferView, name }, index): Picture[] => {
    const label = name ?? uri?.slice(0, 80) ?? `texture ${index + 1}`;
    if (uri !== undefined) {
      const bytes = uri.startsWith('data:')
        ? bytesOfData(uri)
        : scene.files.get(pathInFiles(scene, uri) ?? '');
      return bytes === undefined ? [] : [[label, bytes]];
    }
    const view = bufferViews[bufferView ?? -1];
    const bytes = bytesOfBuffer(view?.buffer ?? -1);
    if (view === undefined || bytes === undefined)
      throw refuseScene(scene.main, `names a texture (${label}) that it does not hold.`);
    const from = view.byteOffset ?? 0;
    return [[label, bytes.slice(from, from + (view.byteLength ?? 0))]];
  });
};

/** @throws StudioError */
export const loadGltf = async (scene: SceneFiles): Promise<LoadedScene> => {
  const { main, kind, files } = scene;
  const bytes = files.get(main) ?? new Uint8Array();
  const parts =
    kind === 'glb' ? partsOfGlb(bytes, main) : { document: parsed(bytes, main), binary: undefined };
  checkGltf(parts.document, (uri) => pathInFiles(scene, uri) !== undefined, main);
  await weighPictures(picturesOf(scene, parts), main);
  const local = localFiles(scene);
  const loader = new GLTFLoader(local.manager);
  loader.setMeshoptDecoder(MeshoptDecoder);
  if (parts.document.extensionsUsed?.includes('KHR_draco_mesh_compression') === true) {
    const { dracoInHere } = await import('./draco.ts');
    loader.setDRACOLoader(dracoInHere() as unknown as DRACOLoader);
  }
  try {
    const exact = bytes.byteLength === bytes.buffer.byteLength ? bytes : bytes.slice();
    const { scene: root, animations } = await loader.parseAsync(exact.buffer, '');
    return {
      kind: kind === 'glb' ? 'glTF, one file' : 'glTF with its files',
      root,
      clips: animations,
      // glTF 2.0, 3.3: all distances are metres.
      unitMm: 1000,
      notes: [],
    };
  } catch (error) {
    throw asSceneError(error, main);
  } finally {
    local.end();
  }
};
