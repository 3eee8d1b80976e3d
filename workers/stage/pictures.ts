/** Textures are weighed by their headers before any is decoded. */
import { bytesToDecode } from '../decode/memory.ts';
import { sniff } from '../decode/sniff.ts';
import { refuseScene } from './refuse.ts';

/** Of all pictures of a scene, decoded: 256 megapixels. */
const BYTES_AT_MOST = 2 ** 31;

/** @throws StudioError naming the picture that is broken, or the scene whose pictures are too large together */
export const weighPictures = async (
  pictures: Iterable<readonly [name: string, bytes: Uint8Array<ArrayBuffer>]>,
  scene: string,
): Promise<void> => {
  let total = 0;
  for (const [name, bytes] of pictures) {
    total += await bytesToDecode(sniff(bytes.subarray(0, 1024), name).id, bytes, name);
    if (total > BYTES_AT_MOST)
      throw refuseScene(
        scene,
        'has more than 256 megapixels of textures. Make them smaller: a lens shows no more than the render plan says.',
        'too-large',
      );
  }
};

const PICTURE = /\.(png|jpe?g|webp|avif)$/i;

/** The same for all pictures among a scene's files. */
export const weighPicturesIn = (
  files: ReadonlyMap<string, Uint8Array<ArrayBuffer>>,
  scene: string,
): Promise<void> =>
  weighPictures(
    [...files].filter(([path]) => PICTURE.test(path)),
    scene,
  );
