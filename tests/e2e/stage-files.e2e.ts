/** Every kind of scene that the stage reads, written here from numbers or by independent encoders: each is drawn. */
import { readFileSync } from 'node:fs';
import { unzipSync, zipSync } from 'fflate';
import { MeshoptEncoder } from 'meshoptimizer';
import type { Page } from 'playwright/test';
import sharp from 'sharp';
import { glbOf, gltfOf } from './support/glb.ts';
import { expect, test } from './support/kept-demo.ts';
import { showPart, type } from './support/page.ts';

const text = (lines: readonly string[]) => Buffer.from(`${lines.join('\n')}\n`);

/** A square of two triangles, one unit wide. */
const square = [
  [-0.5, -0.5, 0],
  [0.5, -0.5, 0],
  [0.5, 0.5, 0],
  [-0.5, 0.5, 0],
] as const;
const facets = [
  [0, 1, 2],
  [0, 2, 3],
] as const;

/** The layout of STL as its first users describe it: facet, outer loop, three corners. */
const stl = text([
  'solid square',
  ...facets.flatMap((corners) => [
    'facet normal 0 0 1',
    'outer loop',
    ...corners.map((at) => `vertex ${square[at].join(' ')}`),
    'endloop',
    'endfacet',
  ]),
  'endsolid square',
]);

const ply = text([
  'ply',
  'format ascii 1.0',
  'element vertex 4',
  ...['x', 'y', 'z'].map((name) => `property float ${name}`),
  ...['red', 'green', 'blue'].map((name) => `property uchar ${name}`),
  'element face 2',
  'property list uchar int vertex_indices',
  'end_header',
  ...square.map((corner) => `${corner.join(' ')} 200 40 40`),
  ...facets.map((corners) => `3 ${corners.join(' ')}`),
]);

const obj = text([
  'mtllib square.mtl',
  ...square.map((corner) => `v ${corner.join(' ')}`),
  ...['0 0', '1 0', '1 1', '0 1'].map((uv) => `vt ${uv}`),
  'usemtl leaf',
  'f 1/1 2/2 3/3 4/4',
]);
const mtl = text(['newmtl leaf', 'Kd 1 1 1', 'map_Kd leaf.png']);

/** OpenUSD, usdGeom schema: Mesh with points, faceVertexCounts, faceVertexIndices. */
const usda = text([
  '#usda 1.0',
  '(',
  '    defaultPrim = "Square"',
  '    metersPerUnit = 0.01',
  '    upAxis = "Y"',
  ')',
  'def Mesh "Square"',
  '{',
  '    int[] faceVertexCounts = [3, 3]',
  `    int[] faceVertexIndices = [${facets.flat().join(', ')}]`,
  `    point3f[] points = [${square.map((corner) => `(${corner.join(', ')})`).join(', ')}]`,
  '}',
]);

const { document, binary } = gltfOf([
  { name: 'box', middle: [0, 0, 0], size: [1, 1, 1], shine: [0.5, 0.2, 0.2] },
]);

/** EXT_meshopt_compression: corners packed by the encoder of its own authors. */
const meshopt = async (): Promise<Buffer> => {
  await MeshoptEncoder.ready;
  const places = new Uint8Array(binary.slice(0, 96));
  const packed = MeshoptEncoder.encodeGltfBuffer(places, 8, 12, 'ATTRIBUTES');
  const room = new Uint8Array(Math.ceil(packed.length / 4) * 4 + 72);
  room.set(packed);
  room.set(binary.slice(96, 168), room.length - 72);
  const extension = {
    buffer: 0,
    byteOffset: 0,
    byteLength: packed.length,
    byteStride: 12,
    count: 8,
  };
  return glbOf(
    {
      ...document,
      extensionsUsed: ['EXT_meshopt_compression'],
      extensionsRequired: ['EXT_meshopt_compression'],
      bufferViews: [
        {
          buffer: 1,
          byteLength: 96,
          extensions: { EXT_meshopt_compression: { ...extension, mode: 'ATTRIBUTES' } },
        },
        { buffer: 0, byteOffset: room.length - 72, byteLength: 72 },
      ],
      buffers: [
        { byteLength: room.length },
        { byteLength: 96, extensions: { EXT_meshopt_compression: { fallback: true } } },
      ],
    },
    room,
  );
};

/** KHR_draco_mesh_compression: the same box, packed by draco3d 1.5.7 (edgebreaker, 14 bits a place; attribute 0). */
const draco = (): Buffer => {
  const packed = readFileSync(new URL('./support/box.drc', import.meta.url));
  const extension = { bufferView: 0, attributes: { POSITION: 0 } };
  return glbOf(
    {
      ...document,
      extensionsUsed: ['KHR_draco_mesh_compression'],
      extensionsRequired: ['KHR_draco_mesh_compression'],
      accessors: document.accessors.map(({ bufferView: _view, ...accessor }) => accessor),
      bufferViews: [{ buffer: 0, byteOffset: 0, byteLength: packed.length }],
      buffers: [{ byteLength: packed.length }],
      meshes: [
        {
          primitives: [
            {
              attributes: { POSITION: 0 },
              indices: 1,
              material: 0,
              extensions: { KHR_draco_mesh_compression: extension },
            },
          ],
        },
      ],
    },
    packed,
  );
};

const leaf = () =>
  sharp({ create: { width: 8, height: 8, channels: 3, background: '#2f8a3f' } })
    .png()
    .toBuffer();

/** A glTF with a texture beside it, and its corners in a file of their own. */
const gltfFolder = async (): Promise<Record<string, Uint8Array>> => ({
  'shop/scene.gltf': Buffer.from(
    JSON.stringify({
      ...document,
      images: [{ uri: 'maps/leaf%20one.png' }],
      textures: [{ source: 0 }],
      materials: [{ pbrMetallicRoughness: { baseColorTexture: { index: 0 } } }],
      buffers: [{ byteLength: binary.length, uri: 'scene.bin' }],
    }),
  ),
  'shop/scene.bin': binary,
  'shop/maps/leaf one.png': await leaf(),
});

const stage = (page: Page) => page.getByTestId('stage');

/** Waits until a scene of so many triangles is drawn; what is not ground must be seen. */
const isDrawn = async (page: Page, name: string, triangles: number): Promise<void> => {
  await expect(
    page
      .locator('main')
      .getByText(new RegExp(`^${name}: ${triangles.toLocaleString('en')} triangles`)),
  ).toBeVisible();
  await expect(page.locator('main').getByText(/^Of what is seen, \d/)).toBeVisible();
  await expect(stage(page)).toHaveAttribute('data-samples', /\d/);
};

const add = (page: Page, name: string, buffer: Buffer | Uint8Array) =>
  page
    .getByLabel('Add scene', { exact: true })
    .setInputFiles({ name, mimeType: '', buffer: Buffer.from(buffer) });

test('glTF comes as a zip with its texture, and packed by meshopt or Draco', async ({ page }) => {
  await page.goto('./#/shoot');
  await add(page, 'shop.zip', zipSync(await gltfFolder()));
  await isDrawn(page, 'shop.zip', 12);
  await add(page, 'packed.glb', await meshopt());
  await isDrawn(page, 'packed.glb', 12);
  await add(page, 'tight.glb', draco());
  await isDrawn(page, 'tight.glb', 12);
});

test('STL, PLY, OBJ with its texture, and OpenUSD, plain and packed, are read @wider', async ({
  page,
}) => {
  await page.goto('./#/shoot');
  for (const [name, bytes] of [
    ['square.stl', stl],
    ['square.ply', ply],
    ['square.zip', zipSync({ 'square.obj': obj, 'square.mtl': mtl, 'leaf.png': await leaf() })],
    ['square.usda', usda],
    ['square.usdz', zipSync({ 'square.usda': usda }, { level: 0 })],
  ] as const) {
    await add(page, name, bytes);
    await isDrawn(page, name, 2);
  }
});

test('an animation is spread over the views, first moment to last @wider', async ({ page }) => {
  await page.goto('./#/shoot');
  await page.getByRole('button', { name: 'Try it with our scene' }).click();
  await isDrawn(page, 'gift shop table.glb', 16_420);
  await type(page, 'Print width', '30 mm');
  await type(page, 'Print height', '36 mm');
  await type(page, 'View slots', '5');
  // Hardly any depth: what differs from view to view is what moves.
  await showPart(page, 'Gain and cameras');
  await type(page, 'Depth gain', '0.001');
  await showPart(page, 'The stage');
  await page.getByLabel('Quality').selectOption({ label: 'Quick: 8 samples' });
  await page.getByLabel('Animation over the views').selectOption({ index: 1 });
  await page.getByRole('button', { name: 'Render views', exact: true }).click();
  await expect(page.locator('main').getByText(/^5 views rendered/)).toBeVisible({
    timeout: 240_000,
  });
  await page.evaluate(() => Reflect.deleteProperty(globalThis, 'showSaveFilePicker'));
  const saving = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Save job file', exact: true }).click();
  const files = unzipSync(readFileSync(await (await saving).path()));
  const pictures = Object.entries(files)
    .filter(([path]) => path.endsWith('.png'))
    .map(([, bytes]) => bytes);
  const grey = await Promise.all(
    pictures.map((bytes) => sharp(bytes).greyscale().raw().toBuffer()),
  );
  const apart = (a: number, b: number): number => {
    const [one, two] = [grey[a] ?? Buffer.alloc(0), grey[b] ?? Buffer.alloc(0)];
    return one.reduce((sum, code, at) => sum + Math.abs(code - (two[at] ?? 0)), 0) / one.length;
  };
  // The kingfisher looks ahead in views 1, 3 and 5, and to either side in 2 and 4.
  for (const aside of [1, 3]) expect(apart(2, aside)).toBeGreaterThan(3 * apart(0, 2));
});
