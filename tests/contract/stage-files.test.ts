/** Scenes that are broken, hostile or not whole are refused by name before anything of their size is built. */
import { zipSync } from 'fflate';
import { describe, expect, test } from 'vitest';
import { loadScene } from '../../workers/stage/load.ts';
import { sceneFilesOf } from '../../workers/stage/scene-files.ts';
import { glbOf, gltfOf } from '../e2e/support/glb.ts';

const box = { name: 'a', middle: [0, 0, 0], size: [1, 1, 1], shine: [1, 1, 1] } as const;
const { document, binary } = gltfOf([box]);

const given = (bytes: Uint8Array | string, name = 'shop.glb') => ({
  key: name,
  name,
  file: new Blob([bytes as BlobPart]),
});
const refusal = async (bytes: Uint8Array | string, name?: string): Promise<string> => {
  try {
    await loadScene(given(bytes, name));
  } catch (error) {
    return (error as Error).message;
  }
  throw new Error('It was taken.');
};
const withChange = (change: object) => glbOf({ ...document, ...change }, binary);

describe('refused, by name', () => {
  test.each<[string, Uint8Array | string, string, RegExp]>([
    ['an empty file', '', 'shop.glb', /shop\.glb.* is empty/],
    ['no glTF', 'GIF89a and more than twenty bytes', 'shop.glb', /does not begin as a \.glb/],
    ['half a file', glbOf(document, binary).subarray(0, 600), 'shop.glb', /breaks off/],
    ['another kind', 'x', 'shop.fbx', /no scene that the stage reads/],
    [
      'a circle of nodes',
      withChange({ nodes: [{ children: [1] }, { children: [0] }], scenes: [{ nodes: [0] }] }),
      'shop.glb',
      /circle/,
    ],
    [
      'a child that is not there',
      withChange({ nodes: [{ children: [7] }] }),
      'shop.glb',
      /names a node 7/,
    ],
    [
      'corners for a hundred gigabytes',
      withChange({ accessors: [{ count: 9e9, type: 'VEC3', componentType: 5126 }] }),
      'shop.glb',
      /more corners than the stage takes/,
    ],
    [
      'a count that is no number',
      withChange({ accessors: [{ count: 'many', type: 'VEC3' }] }),
      'shop.glb',
      /count or type/,
    ],
    [
      'a texture that was not given',
      withChange({ images: [{ uri: 'maps/fern%20leaf.png' }] }),
      'shop.glb',
      /wants "maps\/fern%20leaf\.png", which was not given/,
    ],
    [
      'a texture elsewhere',
      withChange({ images: [{ uri: 'https://example.org/a.png' }] }),
      'shop.glb',
      /fetches nothing/,
    ],
    [
      'KTX2 textures',
      withChange({ extensionsRequired: ['KHR_texture_basisu'] }),
      'shop.glb',
      /KTX2/,
    ],
    ['glTF 1', withChange({ asset: { version: '1.0' } }), 'shop.glb', /glTF 1\.0/],
    [
      'a zip without a scene',
      zipSync({ 'readme.txt': new Uint8Array(4) }),
      'shop.zip',
      /holds no scene/,
    ],
    [
      'a damaged zip',
      Buffer.from('PK\x03\x04 and no more of it than this'),
      'shop.zip',
      /damaged zip/,
    ],
  ])('%s', async (_what, bytes, name, reason) => {
    expect(await refusal(bytes, name)).toMatch(reason);
  });

  test('a texture whose header says 60 000 × 60 000 pixels', async () => {
    // W3C PNG, 11.2.1: width and height are the first eight bytes of IHDR.
    const png = Buffer.alloc(64);
    Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 0, 0, 0, 13]).copy(png);
    png.write('IHDR', 12, 'latin1');
    png.writeUInt32BE(60000, 16);
    png.writeUInt32BE(60000, 20);
    png.set([8, 2, 0, 0, 0], 24);
    const uri = `data:image/png;base64,${png.toString('base64')}`;
    expect(await refusal(withChange({ images: [{ uri, name: 'wall' }] }))).toMatch(/wall/);
  });
});

test('in a zip the scene nearest to the top is the one, with its files by path', async () => {
  const zip = zipSync({
    'shop/parts/small.gltf': new Uint8Array(2),
    'shop/scene.gltf': new Uint8Array(3),
    'shop/maps/leaf.png': new Uint8Array(4),
    '__MACOSX/shop/scene.gltf': new Uint8Array(5),
  });
  const scene = await sceneFilesOf(given(zip, 'shop.zip'));
  expect(scene.main).toBe('shop/scene.gltf');
  expect(scene.kind).toBe('gltf');
  expect([...scene.files.keys()].sort()).toEqual([
    'shop/maps/leaf.png',
    'shop/parts/small.gltf',
    'shop/scene.gltf',
  ]);
});
