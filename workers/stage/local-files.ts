/** Gives three's loaders the files beside a scene, and nothing else. */
import { ImageBitmapLoader, ImageLoader, LoadingManager } from 'three';
import type { SceneFiles } from './scene-files.ts';

const folderOf = (path: string): string => path.slice(0, path.lastIndexOf('/') + 1);

/** Path of "../maps/a%20b.png", seen from the scene's folder, among the files; undefined: it is not there. */
export const pathInFiles = ({ main, files }: SceneFiles, uri: string): string | undefined => {
  let plain: string;
  try {
    plain = decodeURIComponent(uri);
  } catch {
    plain = uri;
  }
  const parts: string[] = [];
  for (const part of `${folderOf(main)}${plain.replaceAll('\\', '/')}`.split('/'))
    if (part === '..') parts.pop();
    else if (part !== '' && part !== '.') parts.push(part);
  const path = parts.join('/');
  return files.has(path) ? path : undefined;
};

export interface LocalFiles {
  readonly manager: LoadingManager;
  /** Resolves once all textures asked for so far are there. */
  settled(): Promise<void>;
  /** Lets go of the addresses. */
  end(): void;
}

/** A file that is not there is an empty one: its loader says so, and nothing is fetched from elsewhere. */
export const localFiles = (scene: SceneFiles): LocalFiles => {
  const manager = new LoadingManager();
  const made: string[] = [];
  manager.setURLModifier((url) => {
    if (url.startsWith('data:') || url.startsWith('blob:')) return url;
    const content = scene.files.get(pathInFiles(scene, url) ?? '');
    const address = URL.createObjectURL(new Blob(content === undefined ? [] : [content]));
    made.push(address);
    return address;
  });
  const pictures = inWorker(manager);
  return {
    manager,
    settled: async () => {
      await Promise.allSettled(pictures);
    },
    end: () => {
      for (const address of made) URL.revokeObjectURL(address);
    },
  };
};

/**
 * The loaders of older formats make an image element of each texture, and a worker has no document: while they run,
 * textures are bitmaps instead, turned over as WebGL wants them. @returns what is being loaded
 */
const inWorker = (manager: LoadingManager): Promise<unknown>[] => {
  const pending: Promise<unknown>[] = [];
  ImageLoader.prototype.load = function load(url, onLoad, _onProgress, onError) {
    const loader = new ImageBitmapLoader(manager);
    loader.setOptions({
      imageOrientation: 'flipY',
      premultiplyAlpha: 'none',
      colorSpaceConversion: 'none',
    });
    const loading = loader.loadAsync(url).then(
      (bitmap) => onLoad?.(bitmap as never),
      (error: unknown) => onError?.(error),
    );
    pending.push(loading);
    return undefined as never;
  };
  return pending;
};
