/**
 * All services that decode pictures, in one script: separate bundles would each contain every decoder. One script
 * also loads faster than several.
 */
import type { AlignWorker } from '../src/contract/align.ts';
import type { ClipWorker } from '../src/contract/clip.ts';
import type { ColourWorker } from '../src/contract/colour.ts';
import type { FrameWorker } from '../src/contract/frames.ts';
import type { ParallaxWorker } from '../src/contract/parallax.ts';
import type { PhotoWorker } from '../src/contract/photo.ts';
import type { SynthWorker } from '../src/contract/synth.ts';
import { createAlignService } from './align-service.ts';
import { createClipService } from './clip-service.ts';
import { createColourService } from './colour-service.ts';
import { createFrameService } from './frame-service.ts';
import { createParallaxService } from './parallax-service.ts';
import { createPhotoService } from './photo-service.ts';
import { createSynthService } from './synth-service.ts';

export const createPictureService = (): FrameWorker &
  ParallaxWorker &
  PhotoWorker &
  SynthWorker &
  AlignWorker &
  ClipWorker &
  ColourWorker => {
  const frame = createFrameService();
  const parallax = createParallaxService();
  const photo = createPhotoService();
  const synth = createSynthService();
  const align = createAlignService();
  const clip = createClipService();
  const colour = createColourService();
  return {
    ...frame,
    ...parallax,
    ...photo,
    ...synth,
    ...align,
    ...clip,
    ...colour,
    // A worker belongs to one pool, so at most one service knows the id.
    cancel: (id) => {
      for (const service of [frame, parallax, photo, synth, align, clip, colour])
        service.cancel(id);
    },
  };
};
