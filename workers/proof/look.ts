/** The pictures of a proof as the print shows them. */
import type { ProofLook } from '../../src/contract/proof.ts';
import { seenInPrint } from '../../src/core/colour/icc/look.ts';
import type { Picture, ProofScene } from '../../src/core/proof/scene.ts';
import { deviceTableOf } from '../device-tables.ts';

interface Seen {
  readonly key: string;
  readonly picture: Picture;
}

/** Pictures that stay are converted once: the painters know them by their identity, too. */
export const lookKeeper = () => {
  const kept = new WeakMap<Picture, Seen>();
  return async (scene: ProofScene, { table, warn }: ProofLook): Promise<ProofScene> => {
    const nodes = await deviceTableOf(table);
    const key = `${table.key} ${warn ? 'warn' : ''}`;
    const look = (picture: Picture): Picture => {
      const had = kept.get(picture);
      if (had?.key === key) return had.picture;
      const pixels = new Uint8Array(picture.pixels.length);
      seenInPrint(picture.pixels, nodes, warn, pixels);
      const seen = { ...picture, pixels };
      kept.set(picture, { key, picture: seen });
      return seen;
    };
    return { ...scene, frames: scene.frames.map((frame) => frame && look(frame)) };
  };
};
