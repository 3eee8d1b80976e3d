/** Small scenes as .glb, written from their numbers alone (glTF 2.0 specification, sections 3 and 4). */

export interface Box {
  readonly name: string;
  readonly middle: readonly [number, number, number];
  readonly size: readonly [number, number, number];
  /** Linear red, green, blue, 0 … 1. It shines by itself, so that no light matters. */
  readonly shine: readonly [number, number, number];
}

export interface GlbCamera {
  readonly name: string;
  readonly place: readonly [number, number, number];
  /** Vertical field of view. */
  readonly yfovRad: number;
  readonly aspectRatio: number;
}

/** Corners −0.5 … 0.5; two triangles a side, seen anticlockwise from outside. */
const corners = [0, 1, 2, 3, 4, 5, 6, 7].map((n) => [
  (n & 1) - 0.5,
  ((n >> 1) & 1) - 0.5,
  (n >> 2) - 0.5,
]);
const sides = [
  [4, 5, 7, 6],
  [1, 0, 2, 3],
  [5, 1, 3, 7],
  [0, 4, 6, 2],
  [6, 7, 3, 2],
  [0, 1, 5, 4],
].flatMap(([a, b, c, d]) => [a, b, c, a, c, d]) as number[];

const padded = (bytes: Uint8Array, filler: number): Uint8Array => {
  const out = new Uint8Array(Math.ceil(bytes.length / 4) * 4).fill(filler);
  out.set(bytes);
  return out;
};

export const gltfOf = (boxes: readonly Box[], cameras: readonly GlbCamera[] = []) => {
  const places = new Float32Array(corners.flat());
  const indices = new Uint16Array(sides);
  const binary = new Uint8Array(places.byteLength + indices.byteLength);
  binary.set(new Uint8Array(places.buffer));
  binary.set(new Uint8Array(indices.buffer), places.byteLength);
  const nodes = [
    ...boxes.map(({ name, middle, size }, mesh) => ({
      name,
      mesh,
      translation: middle,
      scale: size,
    })),
    ...cameras.map(({ name, place }, camera) => ({ name, camera, translation: place })),
  ];
  const document = {
    asset: { version: '2.0' },
    scene: 0,
    scenes: [{ nodes: nodes.map((_, index) => index) }],
    nodes,
    cameras: cameras.map(({ name, yfovRad: yfov, aspectRatio }) => ({
      name,
      type: 'perspective',
      perspective: { yfov, aspectRatio, znear: 0.01, zfar: 1000 },
    })),
    meshes: boxes.map((_, material) => ({
      primitives: [{ attributes: { POSITION: 0 }, indices: 1, material }],
    })),
    materials: boxes.map(({ shine }) => ({
      emissiveFactor: shine,
      pbrMetallicRoughness: {
        baseColorFactor: [0, 0, 0, 1],
        metallicFactor: 0,
        roughnessFactor: 1,
      },
    })),
    accessors: [
      {
        bufferView: 0,
        componentType: 5126,
        count: 8,
        type: 'VEC3',
        min: [-0.5, -0.5, -0.5],
        max: [0.5, 0.5, 0.5],
      },
      { bufferView: 1, componentType: 5123, count: 36, type: 'SCALAR' },
    ],
    bufferViews: [
      { buffer: 0, byteOffset: 0, byteLength: places.byteLength },
      { buffer: 0, byteOffset: places.byteLength, byteLength: indices.byteLength },
    ],
    buffers: [{ byteLength: binary.byteLength }] as { byteLength: number; uri?: string }[],
  };
  return { document, binary };
};

export const glbOf = (document: object, binary: Uint8Array): Buffer => {
  const json = padded(new TextEncoder().encode(JSON.stringify(document)), 0x20);
  const bin = padded(binary, 0);
  const head = new DataView(new ArrayBuffer(12));
  head.setUint32(0, 0x46546c67, true);
  head.setUint32(4, 2, true);
  head.setUint32(8, 12 + 8 + json.length + 8 + bin.length, true);
  const chunk = (bytes: Uint8Array, kind: number) => {
    const front = new DataView(new ArrayBuffer(8));
    front.setUint32(0, bytes.length, true);
    front.setUint32(4, kind, true);
    return Buffer.concat([Buffer.from(front.buffer), bytes]);
  };
  return Buffer.concat([Buffer.from(head.buffer), chunk(json, 0x4e4f534a), chunk(bin, 0x004e4942)]);
};
