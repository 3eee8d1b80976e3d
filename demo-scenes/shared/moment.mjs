/** One moment of a scene: its number in file names, and its mesh with the sky's light in it. */
import { bakeSky } from './light.mjs';

export const pad = (n) => String(n).padStart(2, '0');

/** Builds the mesh of one moment and bakes the sky's light into it. */
export function prepare(scene, frame) {
  const stage = scene.stageAt(frame);
  const mesh = scene.build(frame).freeze();
  const casts = stage.materials.map((m) => (m.casts ?? !m.glow) && m.cover === undefined);
  bakeSky(mesh, {
    ...stage.sky,
    casts,
    leafy: stage.materials.map((m) => Boolean(m.leafy)),
    box: scene.box,
  });
  scene.afterBake?.(mesh);
  return { mesh, casts };
}
