/** A glTF's document, checked before any of it is built (glTF 2.0 specification; sections named below). */
import { refuseScene } from './refuse.ts';

interface Accessor {
  readonly bufferView?: number;
  readonly count?: number;
  readonly type?: string;
}
interface Held {
  readonly uri?: string;
  readonly bufferView?: number;
}
export interface GltfDocument {
  readonly asset?: { readonly version?: string };
  readonly accessors?: readonly Accessor[];
  readonly buffers?: readonly (Held & { readonly byteLength?: number })[];
  readonly bufferViews?: readonly {
    readonly buffer?: number;
    readonly byteOffset?: number;
    readonly byteLength?: number;
    readonly extensions?: Readonly<Record<string, { count?: number; byteStride?: number }>>;
  }[];
  readonly images?: readonly (Held & { readonly name?: string })[];
  readonly nodes?: readonly { readonly children?: readonly number[] }[];
  readonly scenes?: readonly { readonly nodes?: readonly number[] }[];
  readonly extensionsUsed?: readonly string[];
  readonly extensionsRequired?: readonly string[];
}

/** Numbers in all accessors: 60 million vertices of three, 720 MB. */
const NUMBERS_AT_MOST = 180e6;
const NODES_AT_MOST = 200_000;
const DEEP_AT_MOST = 400;
const ofType: Readonly<Record<string, number>> = {
  SCALAR: 1,
  VEC2: 2,
  VEC3: 3,
  VEC4: 4,
  MAT2: 4,
  MAT3: 9,
  MAT4: 16,
};

/** 4.4: what the stage's loader follows beyond the core. */
const followed = new Set([
  'KHR_draco_mesh_compression',
  'EXT_meshopt_compression',
  'KHR_meshopt_compression',
  'KHR_mesh_quantization',
  'KHR_texture_transform',
  'KHR_lights_punctual',
  'KHR_materials_unlit',
  'KHR_materials_clearcoat',
  'KHR_materials_dispersion',
  'KHR_materials_emissive_strength',
  'KHR_materials_ior',
  'KHR_materials_iridescence',
  'KHR_materials_sheen',
  'KHR_materials_specular',
  'KHR_materials_transmission',
  'KHR_materials_volume',
  'KHR_materials_anisotropy',
  'EXT_materials_bump',
  'EXT_texture_webp',
  'EXT_texture_avif',
  'EXT_mesh_gpu_instancing',
]);

/** 5.25: nodes form trees: no circle, no node with two parents. */
const checkNodes = ({ nodes = [], scenes = [] }: GltfDocument, name: string): void => {
  if (nodes.length > NODES_AT_MOST)
    throw refuseScene(name, `has more than ${NODES_AT_MOST} nodes.`, 'too-large');
  const parents = new Uint8Array(nodes.length);
  for (const { children = [] } of nodes)
    for (const child of children) {
      if (nodes[child] === undefined)
        throw refuseScene(name, `names a node ${child} that it has not.`);
      parents[child] = (parents[child] ?? 0) + 1;
      if (parents[child] > 1)
        throw refuseScene(name, 'has a node with two parents, or a circle of nodes.');
    }
  const waiting = scenes.flatMap(({ nodes: roots = [] }) => roots.map((at) => ({ at, deep: 0 })));
  for (let next = waiting.pop(); next !== undefined; next = waiting.pop()) {
    const node = nodes[next.at];
    if (node === undefined || (parents[next.at] ?? 0) > (next.deep === 0 ? 0 : 1))
      throw refuseScene(name, 'has a scene of nodes that it has not, or a circle of nodes.');
    if (next.deep > DEEP_AT_MOST)
      throw refuseScene(name, `nests its nodes more than ${DEEP_AT_MOST} deep.`, 'too-large');
    for (const at of node.children ?? []) waiting.push({ at, deep: next.deep + 1 });
  }
};

/** 3.6: what the accessors promise, before anything of that size is made. */
const checkAmounts = ({ accessors = [], bufferViews = [] }: GltfDocument, name: string): void => {
  const amounts = accessors.map(({ count = 0, type = '' }) => count * (ofType[type] ?? NaN));
  const packed = bufferViews.flatMap(({ extensions = {} }) =>
    Object.values(extensions).map(({ count = 0, byteStride = 0 }) => (count * byteStride) / 4),
  );
  const all = [...amounts, ...packed];
  if (all.some((amount) => !(amount >= 0)))
    throw refuseScene(name, 'has an accessor whose count or type is not as glTF has it.');
  if (all.reduce((sum, amount) => sum + amount, 0) > NUMBERS_AT_MOST)
    throw refuseScene(
      name,
      'promises more corners than the stage takes (some 60 million). Export it with fewer: a lens shows none of them.',
      'too-large',
    );
};

/** 3.4: files beside it that it names. Addresses elsewhere are never fetched. */
const checkUris = (
  { buffers = [], images = [] }: GltfDocument,
  has: (uri: string) => boolean,
  name: string,
): void => {
  for (const { uri } of [...buffers, ...images]) {
    if (uri === undefined || uri.startsWith('data:') || has(uri)) continue;
    const short = uri.slice(0, 120);
    throw refuseScene(
      name,
      /^[a-z][a-z0-9+.-]*:/i.test(uri)
        ? `wants "${short}", which lies elsewhere. The stage fetches nothing: export the scene with its files beside it, or as .glb.`
        : `wants "${short}", which was not given. Add the folder with all its files, a zip of it, or export it as .glb.`,
      'file-gone',
    );
  }
};

const checkExtensions = ({ extensionsRequired = [] }: GltfDocument, name: string): void => {
  const other = extensionsRequired.find((extension) => !followed.has(extension));
  if (other === undefined) return;
  throw refuseScene(
    name,
    other === 'KHR_texture_basisu'
      ? 'has KTX2 textures (KHR_texture_basisu), which the stage does not read. Export it with PNG, JPEG or WebP textures.'
      : `needs the glTF extension ${other.slice(0, 60)}, which the stage does not follow. Export it without.`,
    'unsupported-variant',
  );
};

/** @throws StudioError for a document that is broken, hostile, or needs what is not there */
export const checkGltf = (
  document: GltfDocument,
  has: (uri: string) => boolean,
  name: string,
): void => {
  const version = document.asset?.version ?? '';
  if (!/^2\./.test(version))
    throw refuseScene(
      name,
      version === ''
        ? 'does not say which glTF it is.'
        : `is glTF ${version.slice(0, 8)}; the stage reads glTF 2.`,
      'unsupported-variant',
    );
  checkExtensions(document, name);
  checkNodes(document, name);
  checkAmounts(document, name);
  checkUris(document, has, name);
};
