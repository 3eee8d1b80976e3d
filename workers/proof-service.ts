/** Draws the tilt proof, off the page: neither its pictures nor its shaders hold the page up. */
import { transfer } from 'comlink';
import type { ProofWorker } from '../src/contract/proof.ts';
import type { Picture } from '../src/core/proof/scene.ts';
import { sceneOf } from '../src/core/proof/sources.ts';
import { loadKernels } from './kernels.ts';
import { lookKeeper } from './proof/look.ts';
import type { ProofStage } from './proof/stage.ts';
import { createProofStage } from './proof/stage.ts';

export const createProofService = (): Omit<ProofWorker, 'holdLock'> => {
  let stage: ProofStage | undefined;
  const pictures = new Map<number, Picture>();
  const withLook = lookKeeper();

  const forgetAllBut = (named: readonly (number | undefined)[]) => {
    for (const picture of pictures.keys()) if (!named.includes(picture)) pictures.delete(picture);
  };
  return {
    async open(canvas, wish) {
      await loadKernels();
      stage = createProofStage(canvas, wish);
    },
    untilCardLost: () => stage?.cardLost ?? new Promise(() => undefined),
    keepPicture: (picture, content) => void pictures.set(picture, content),
    async load({ look, ...sources }) {
      forgetAllBut(sources.pictures);
      const found = sources.pictures.map((one) =>
        one === undefined ? undefined : pictures.get(one),
      );
      const scene = sceneOf({ ...sources, pictures: found });
      stage?.load(look === undefined ? scene : await withLook(scene, look));
    },
    paint(view, size) {
      const print = stage?.paint(view, size);
      return print === undefined ? undefined : transfer(print, [print.pixels.buffer]);
    },
    cancel: () => undefined,
  };
};
