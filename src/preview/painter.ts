/** What the tilt proof asks of whatever draws it. */
import type { ProofScene, ProofView } from './scene.ts';

export interface Painter {
  readonly kind: 'webgl' | 'canvas';
  /**
   * Takes a scene's pictures in; those that are the same objects as before are not sent again.
   * Stops after the picture that exceeds the budget, so that the page is never held up for long.
   * @returns true when all are in; false to be called again before the next `paint`.
   */
  load(scene: ProofScene, budgetMs: number): boolean;
  /** Draws the loaded scene, or the bare surround when there is none to draw. */
  paint(view: ProofView): void;
  dispose(): void;
}
