/** OpenUSD: a .usdz, or one layer as text or crate. */
import { USDLoader } from 'three/addons/loaders/USDLoader.js';
import type { LoadedScene } from './loaded.ts';
import { localFiles } from './local-files.ts';
import { weighPicturesIn } from './pictures.ts';
import type { SceneFiles } from './scene-files.ts';
import { isZip, unzipScene } from './scene-files.ts';

/** The loader scales to metres wherever the layer says what its unit is; a plain 1 leaves the size as it is. */
const METRES = /metersPerUnit\s*=\s*1(\.0+)?\s*$/m;

/** @throws StudioError */
export const loadUsd = async (scene: SceneFiles): Promise<LoadedScene> => {
  const { main, files } = scene;
  const bytes = (files.get(main) ?? new Uint8Array()).slice();
  // Looked through before the loader unpacks it all.
  const inside = isZip(bytes) ? unzipScene(bytes, main) : files;
  await weighPicturesIn(inside, main);
  const local = localFiles(scene);
  const root = new USDLoader(local.manager).parse(bytes.buffer);
  await local.settled();
  local.end();
  const text = isZip(bytes) ? '' : new TextDecoder().decode(bytes.subarray(0, 65536));
  const inMetres = root.scale.x !== 1 || METRES.test(text);
  return {
    kind: isZip(bytes) ? 'OpenUSD, packed' : 'OpenUSD',
    root,
    clips: root.animations,
    unitMm: inMetres ? 1000 : undefined,
    notes: [],
  };
};
