/**
 * Draco meshes, decoded in this worker. three's own loader would start workers from blob: addresses, which the content
 * policy forbids; of it only Google's decoder (WebAssembly) is used here.
 */
import {
  BufferAttribute,
  BufferGeometry,
  InterleavedBuffer,
  InterleavedBufferAttribute,
} from 'three';
import DracoDecoderModule from 'three/addons/libs/draco/gltf/draco_wasm_wrapper.js';
import type {
  Draco,
  DracoAttribute,
  DracoDecoder,
  DracoMesh,
} from 'three/addons/libs/draco/gltf/draco_wasm_wrapper.js';
import wasmUrl from 'three/addons/libs/draco/gltf/draco_decoder.wasm?url';

const arrays = {
  Int8Array: [Int8Array, 'DT_INT8'],
  Uint8Array: [Uint8Array, 'DT_UINT8'],
  Int16Array: [Int16Array, 'DT_INT16'],
  Uint16Array: [Uint16Array, 'DT_UINT16'],
  Int32Array: [Int32Array, 'DT_INT32'],
  Uint32Array: [Uint32Array, 'DT_UINT32'],
  Float32Array: [Float32Array, 'DT_FLOAT32'],
} as const;
type ArrayName = keyof typeof arrays;

/** Corners of one mesh: its header may promise any number. */
const POINTS_AT_MOST = 40e6;

/** In a box of its own: the module is like a promise of itself, and would never settle one. */
const openDecoder = async (): Promise<{ readonly draco: Draco }> => {
  const wasmBinary = await (await fetch(wasmUrl)).arrayBuffer();
  return new Promise((resolve) => {
    DracoDecoderModule({ wasmBinary, onModuleLoaded: (draco) => resolve({ draco }) });
  });
};

/** Numbers of one kind at every point; each point begins at a multiple of four bytes, as WebGL wants it. */
const attributeOf = (
  draco: Draco,
  decoder: DracoDecoder,
  mesh: DracoMesh,
  attribute: DracoAttribute,
  name: ArrayName,
): BufferAttribute | InterleavedBufferAttribute => {
  const [Numbers, type] = arrays[name];
  const [points, size] = [mesh.num_points(), attribute.num_components()];
  const byteLength = points * size * Numbers.BYTES_PER_ELEMENT;
  const at = draco._malloc(byteLength);
  try {
    decoder.GetAttributeDataArrayForAllPoints(mesh, attribute, draco[type], byteLength, at);
    const flat = new Numbers(draco.HEAPF32.buffer, at, points * size).slice();
    const stride = (Math.ceil((size * flat.BYTES_PER_ELEMENT) / 4) * 4) / flat.BYTES_PER_ELEMENT;
    if (stride === size) return new BufferAttribute(flat, size);
    const spaced = new Numbers(points * stride);
    for (let point = 0; point < points; point += 1)
      spaced.set(flat.subarray(point * size, (point + 1) * size), point * stride);
    return new InterleavedBufferAttribute(new InterleavedBuffer(spaced, stride), size, 0);
  } finally {
    draco._free(at);
  }
};

const trianglesOf = (draco: Draco, decoder: DracoDecoder, mesh: DracoMesh): BufferAttribute => {
  const count = 3 * mesh.num_faces();
  const at = draco._malloc(4 * count);
  try {
    decoder.GetTrianglesUInt32Array(mesh, 4 * count, at);
    return new BufferAttribute(new Uint32Array(draco.HEAPF32.buffer, at, count).slice(), 1);
  } finally {
    draco._free(at);
  }
};

type IdsByName = Readonly<Record<string, number>>;
type TypesByName = Readonly<Record<string, string>>;

const decoded = (draco: Draco, bytes: ArrayBuffer, ids: IdsByName, types: TypesByName) => {
  const decoder = new draco.Decoder();
  const mesh = new draco.Mesh();
  try {
    const packed = new Int8Array(bytes);
    const status = decoder.DecodeArrayToMesh(packed, packed.byteLength, mesh);
    if (!status.ok()) throw new Error(`its Draco mesh is damaged (${status.error_msg()})`);
    if (mesh.num_points() > POINTS_AT_MOST || mesh.num_faces() > POINTS_AT_MOST)
      throw new Error('its Draco mesh has more corners than the stage takes');
    const geometry = new BufferGeometry();
    geometry.setIndex(trianglesOf(draco, decoder, mesh));
    for (const [name, id] of Object.entries(ids)) {
      const type = types[name] ?? '';
      if (!(type in arrays)) continue;
      const attribute = decoder.GetAttributeByUniqueId(mesh, id);
      geometry.setAttribute(name, attributeOf(draco, decoder, mesh, attribute, type as ArrayName));
    }
    return geometry;
  } finally {
    draco.destroy(mesh);
    draco.destroy(decoder);
  }
};

/** What GLTFLoader asks of a Draco loader. */
export const dracoInHere = () => {
  let opened: ReturnType<typeof openDecoder> | undefined;
  const preload = () => (opened ??= openDecoder());
  return {
    preload,
    decodeDracoFile: (
      bytes: ArrayBuffer,
      took: (geometry: BufferGeometry) => void,
      ids: IdsByName,
      types: TypesByName,
      _space: unknown,
      onError: (error: unknown) => void,
    ): void => {
      preload()
        .then(({ draco }) => took(decoded(draco, bytes, ids, types)))
        .catch(onError);
    },
  };
};
