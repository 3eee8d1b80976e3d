/** Exactly what every pixel of a demo frame shows, asked of the program that drew it. */
import { pathToFileURL } from 'node:url';
import type { Plane } from '../../../src/core/frames/parallax/plane.ts';

interface DrawnScene {
  readonly width: number;
  readonly height: number;
  readonly job: { readonly viewingDistanceMm: number; readonly pitchLpi: number };
  readonly cameraXMm: readonly number[];
  stageAt(frame: number): object;
  build(frame: number): object;
}
interface Maker {
  readonly scene: DrawnScene;
  cameraAt(job: object, xMm: number, width: number, height: number): object;
  renderDepth(view: object): Float32Array;
}

/** Samples across and down each pixel, as the scenes are drawn. */
const SAMPLES = 3;
/** Lenticules a step by which two things count as one surface. */
const ONE_SURFACE = 0.1;

const part = async (path: string): Promise<Partial<Maker>> =>
  (await import(/* @vite-ignore */ pathToFileURL(`demo-scenes/${path}.mjs`).href)) as Maker;

/** What the frame shows; places by whole pixels of the frame. */
export const stepsSeen = async (name: string, frame: number) => {
  const { scene, cameraAt, renderDepth } = {
    ...(await part(`${name}/scene`)),
    ...(await part('shared/camera')),
    ...(await part('shared/render')),
  } as Maker;
  const { job, cameraXMm } = scene;
  const [width, height] = [scene.width * SAMPLES, scene.height * SAMPLES];
  const depth = renderDepth({
    mesh: scene.build(frame),
    stage: scene.stageAt(frame),
    camera: cameraAt(job, cameraXMm[frame] as number, width, height),
    width,
    height,
  });
  const cameraStepMm = (cameraXMm[1] as number) - (cameraXMm[0] as number);

  /** Lenticules a step, relation 6, of each sample of the pixel. */
  const seenAt = (x: number, y: number): number[] =>
    Array.from({ length: SAMPLES ** 2 }, (_, i) => {
      const row = y * SAMPLES + Math.floor(i / SAMPLES);
      const z = depth[row * width + x * SAMPLES + (i % SAMPLES)] as number;
      return (((cameraStepMm * z) / (job.viewingDistanceMm + z)) * job.pitchLpi) / 25.4;
    });

  /**
   * Root mean square gradient across of the surface at a pixel, over 5 × 5 px, of white 1; 0 where the pixel
   * shows two surfaces, or fewer than five gradients lie on its own. An edge between two things is
   * the texture of the nearer one, and says nothing of what lies beside it.
   */
  const ownTexture = ({ data, width: across }: Plane, x: number, y: number): number => {
    const here = seenAt(x, y);
    const [least, most] = [Math.min(...here), Math.max(...here)];
    if (most - least >= ONE_SURFACE) return 0;
    const onIt = (column: number, row: number) =>
      seenAt(column, row).every((s) => s >= most - ONE_SURFACE && s <= least + ONE_SURFACE);
    let [energy, count] = [0, 0];
    for (let row = y - 2; row <= y + 2; row += 1)
      for (let column = x - 2; column <= x + 2; column += 1) {
        if (![-1, 0, 1].every((beside) => onIt(column + beside, row))) continue;
        const at = row * across + column;
        energy += (((data[at + 1] as number) - (data[at - 1] as number)) / 2) ** 2;
        count += 1;
      }
    return count < 5 ? 0 : Math.sqrt(energy / count);
  };

  /** Whether all within so many pixels is one surface. */
  const isOneSurface = (x: number, y: number, aroundPx: number): boolean => {
    let [least, most] = [Infinity, -Infinity];
    for (let row = y - aroundPx; row <= y + aroundPx; row += 1)
      for (let column = x - aroundPx; column <= x + aroundPx; column += 1)
        for (const step of seenAt(column, row))
          [least, most] = [Math.min(least, step), Math.max(most, step)];
    return most - least < ONE_SURFACE;
  };

  return { seenAt, ownTexture, isOneSurface };
};
