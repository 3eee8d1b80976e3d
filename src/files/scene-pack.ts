/** A scene with the files beside it as one Blob: the file itself, or a zip of all. */
import { Zip, ZipPassThrough } from 'fflate';
import type { Arrival } from './arrivals.ts';
import { isLitter } from '../core/names/paths.ts';
import { isSceneName } from '../core/stage/scene-kinds.ts';

const CHUNK_BYTES = 4 * 2 ** 20;

/** Files as one zip. Bytes go into it as they are: textures do not shrink, and nothing need be unpacked to be read. */
export const zipped = async (files: readonly Pick<Arrival, 'path' | 'file'>[]): Promise<Blob> => {
  const parts: Blob[] = [];
  let waiting: BlobPart[] = [];
  const zip = new Zip((error, bytes) => {
    if (error !== null) throw error;
    waiting.push(bytes.slice());
  });
  for (const { path, file } of files) {
    const entry = new ZipPassThrough(path);
    zip.add(entry);
    for (let at = 0; at === 0 || at < file.size; at += CHUNK_BYTES) {
      const bytes = new Uint8Array(await file.slice(at, at + CHUNK_BYTES).arrayBuffer());
      entry.push(bytes, at + CHUNK_BYTES >= file.size);
      parts.push(new Blob(waiting));
      waiting = [];
    }
  }
  zip.end();
  return new Blob([...parts, ...waiting], { type: 'application/zip' });
};

export interface ScenePack {
  /** Name of the scene itself; of the zip, where one was given. */
  readonly name: string;
  readonly file: Blob;
}

/** @param files as they were given: a scene, a zip, or a scene among its files. Undefined: there is none. */
export const packScene = async (files: readonly Arrival[]): Promise<ScenePack | undefined> => {
  const kept = files.filter(({ path }) => !isLitter(path));
  const [only] = kept;
  const scene =
    kept.find(({ name }) => isSceneName(name)) ?? (kept.length === 1 ? only : undefined);
  if (scene === undefined) return undefined;
  if (kept.length === 1) return { name: scene.name, file: scene.file };
  return { name: `${scene.name}.zip`, file: await zipped(kept) };
};
