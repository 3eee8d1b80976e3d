/**
 * Writes meshes as one .glb (glTF 2.0, section 4). The scenes' axes (x right, y down, z away, millimetres) become glTF's:
 * x right, y up, z towards the eye, metres.
 */

/** Bytes a corner: place (3 floats), normal and colour (each 3 bytes and one that fills up). */
const FLOAT = 5126;
const BYTE = 5120;
const UNSIGNED_BYTE = 5121;
const UNSIGNED_SHORT = 5123;
const UNSIGNED_INT = 5125;

const padded = (bytes, filler) => {
  const out = Buffer.alloc(Math.ceil(bytes.length / 4) * 4, filler);
  bytes.copy(out);
  return out;
};

class Binary {
  parts = [];
  views = [];
  length = 0;

  /** @returns the number of the view */
  add(array, extra = {}) {
    const bytes = padded(Buffer.from(array.buffer, array.byteOffset, array.byteLength), 0);
    this.views.push({ buffer: 0, byteOffset: this.length, byteLength: array.byteLength, ...extra });
    this.parts.push(bytes);
    this.length += bytes.length;
    return this.views.length - 1;
  }
}

const signed = (value) => Math.round(Math.max(-1, Math.min(1, value)) * 127);
const share = (value) => Math.round(Math.max(0, Math.min(1, value)) * 255);

/** The triangles of one material, with only the corners that they use. */
const partOf = (mesh, material) => {
  const at = new Map();
  const corners = [];
  const indices = [];
  mesh.materials.forEach((one, triangle) => {
    if (one !== material) return;
    // Two axes are turned round, so the corners keep their sense.
    for (const corner of mesh.triangles.slice(3 * triangle, 3 * triangle + 3)) {
      if (!at.has(corner)) at.set(corner, corners.push(corner) - 1);
      indices.push(at.get(corner));
    }
  });
  const of = (list, corner) => list.slice(3 * corner, 3 * corner + 3);
  const toScene = ([x, y, z]) => [x, -y, -z];
  return {
    indices,
    places: corners.flatMap((corner) => toScene(of(mesh.positions, corner)).map((v) => v / 1000)),
    normals: corners.flatMap((corner) => [...toScene(of(mesh.normals, corner)).map(signed), 0]),
    colours: corners.flatMap((corner) => [...of(mesh.colours, corner).map(share), 255]),
  };
};

const leastAndMost = (places) => {
  const of = (axis, pick) => pick(...places.filter((_, i) => i % 3 === axis));
  return {
    min: [0, 1, 2].map((axis) => of(axis, (...all) => all.reduce((a, b) => Math.min(a, b)))),
    max: [0, 1, 2].map((axis) => of(axis, (...all) => all.reduce((a, b) => Math.max(a, b)))),
  };
};

/**
 * @param parts nodes: { name, mesh, at? } with `at` in metres in glTF's axes
 * @param materials by number: { name, roughness, metal?, clear? }
 * @param more { camera, animations } as glTF has them; samplers with plain arrays `input` and `output` (VEC4)
 */
export function writeGlb(parts, materials, { camera, turning }) {
  const binary = new Binary();
  const accessors = [];
  const accessor = (array, componentType, type, count, extra = {}) => {
    const { view, ...facts } = extra;
    const bufferView = binary.add(array, view);
    return accessors.push({ bufferView, componentType, type, count, ...facts }) - 1;
  };
  const meshes = parts.map(({ name, mesh }) => ({
    name,
    primitives: [...new Set(mesh.materials)]
      .sort((a, b) => a - b)
      .map((material) => {
        const { indices, places, normals, colours } = partOf(mesh, material);
        const count = places.length / 3;
        const four = { view: { byteStride: 4 }, normalized: true };
        const short = count < 65536;
        return {
          material,
          indices: accessor(
            short ? new Uint16Array(indices) : new Uint32Array(indices),
            short ? UNSIGNED_SHORT : UNSIGNED_INT,
            'SCALAR',
            indices.length,
          ),
          attributes: {
            POSITION: accessor(
              new Float32Array(places),
              FLOAT,
              'VEC3',
              count,
              leastAndMost(places),
            ),
            NORMAL: accessor(new Int8Array(normals), BYTE, 'VEC3', count, four),
            COLOR_0: accessor(new Uint8Array(colours), UNSIGNED_BYTE, 'VEC3', count, four),
          },
        };
      }),
  }));
  const nodes = [
    ...parts.map(({ name, at }, mesh) => ({ name, mesh, ...(at ? { translation: at } : {}) })),
    { name: camera.name, camera: 0, translation: camera.at },
  ];
  const input = accessor(
    new Float32Array(turning.seconds),
    FLOAT,
    'SCALAR',
    turning.seconds.length,
    {
      min: [turning.seconds[0]],
      max: [turning.seconds.at(-1)],
    },
  );
  const output = accessor(
    new Float32Array(turning.turns.flat()),
    FLOAT,
    'VEC4',
    turning.turns.length,
  );
  const document = {
    asset: { version: '2.0', generator: 'demo-scenes/shop-table/generate.mjs' },
    extensionsUsed: ['KHR_mesh_quantization'],
    extensionsRequired: ['KHR_mesh_quantization'],
    scene: 0,
    scenes: [{ nodes: nodes.map((_, index) => index) }],
    nodes,
    cameras: [{ name: camera.name, type: 'perspective', perspective: camera.perspective }],
    materials: materials.map(({ name, roughness, metal = 0, clear }) => ({
      name,
      doubleSided: true,
      ...(clear ? { alphaMode: 'BLEND' } : {}),
      pbrMetallicRoughness: {
        roughnessFactor: roughness,
        metallicFactor: metal,
        ...(clear ? { baseColorFactor: [1, 1, 1, clear] } : {}),
      },
    })),
    meshes,
    animations: [
      {
        name: turning.name,
        samplers: [{ input, output, interpolation: 'LINEAR' }],
        channels: [{ sampler: 0, target: { node: turning.node, path: 'rotation' } }],
      },
    ],
    accessors,
    bufferViews: binary.views,
    buffers: [{ byteLength: binary.length }],
  };
  return glbOf(document, Buffer.concat(binary.parts));
}

const glbOf = (document, binary) => {
  const json = padded(Buffer.from(JSON.stringify(document)), 0x20);
  const head = Buffer.alloc(12);
  head.writeUInt32LE(0x46546c67, 0);
  head.writeUInt32LE(2, 4);
  head.writeUInt32LE(12 + 8 + json.length + 8 + binary.length, 8);
  const chunk = (bytes, kind) => {
    const front = Buffer.alloc(8);
    front.writeUInt32LE(bytes.length, 0);
    front.writeUInt32LE(kind, 4);
    return Buffer.concat([front, bytes]);
  };
  return Buffer.concat([head, chunk(json, 0x4e4f534a), chunk(binary, 0x004e4942)]);
};
