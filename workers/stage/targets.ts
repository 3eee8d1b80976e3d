/** Pictures on the graphics card that a draw goes through, made anew when its size changes. */
import type { WebGLRenderTarget as Target } from 'three';
import { DepthTexture, FloatType, HalfFloatType, NearestFilter, WebGLRenderTarget } from 'three';

export interface Targets {
  readonly widthPx: number;
  readonly heightPx: number;
  /** One sample: linear light, multiplied by how much of it is covered; and its depth. */
  readonly fresh: Target;
  readonly depth: DepthTexture;
  /** The mean so far, and the one before. */
  readonly means: [Target, Target];
  dispose(): void;
}

const plain = { minFilter: NearestFilter, magFilter: NearestFilter } as const;

export const makeTargets = (widthPx: number, heightPx: number): Targets => {
  const depth = new DepthTexture(widthPx, heightPx, FloatType);
  const fresh = new WebGLRenderTarget(widthPx, heightPx, {
    ...plain,
    type: HalfFloatType,
    depthTexture: depth,
  });
  const mean = () =>
    new WebGLRenderTarget(widthPx, heightPx, { ...plain, type: FloatType, depthBuffer: false });
  const means: [Target, Target] = [mean(), mean()];
  return {
    widthPx,
    heightPx,
    fresh,
    depth,
    means,
    dispose: () => {
      for (const target of [fresh, ...means]) target.dispose();
      depth.dispose();
    },
  };
};
