/**
 * All services that decode pictures, for one script: bundled apart, each would bring every decoder along
 * once more. They stay together in it, since to fetch them one by one takes longer than to read them all.
 */
import type { FrameWorker } from '../src/contract/frames.ts';
import type { ParallaxWorker } from '../src/contract/parallax.ts';
import type { PhotoWorker } from '../src/contract/photo.ts';
import type { SynthWorker } from '../src/contract/synth.ts';
import { createFrameService } from './frame-service.ts';
import { createParallaxService } from './parallax-service.ts';
import { createPhotoService } from './photo-service.ts';
import { createSynthService } from './synth-service.ts';

export const createPictureService = (): FrameWorker &
  ParallaxWorker &
  PhotoWorker &
  SynthWorker => {
  const frame = createFrameService();
  const parallax = createParallaxService();
  const photo = createPhotoService();
  const synth = createSynthService();
  return {
    ...frame,
    ...parallax,
    ...photo,
    ...synth,
    // A worker belongs to one pool, so an id is known to one of them at the most.
    cancel: (id) => {
      for (const service of [frame, parallax, photo, synth]) service.cancel(id);
    },
  };
};
