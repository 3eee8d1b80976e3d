/** What draws the tilt proof. */
import type { ProofScene, ProofView } from './scene.ts';

export interface Painter {
  readonly kind: 'webgl' | 'canvas';
  /**
   * Loads a scene's pictures, except those that are the same objects as before. Stops after the picture that
   * exceeds the budget, so that the page never waits long.
   * @returns true when all are loaded; false to be called again before the next `paint`.
   */
  load(scene: ProofScene, budgetMs: number): boolean;
  /** Draws the loaded scene, or only the surround if there is none. */
  paint(view: ProofView): void;
  dispose(): void;
}
