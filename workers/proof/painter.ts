/** What draws the tilt proof. */
import type { ProofPixels, ProofSize } from '../../src/contract/proof.ts';
import type { ProofScene, ProofView } from '../../src/core/proof/scene.ts';

export interface Painter {
  /** Loads a scene's pictures, except those that are the same objects as before. */
  load(scene: ProofScene): void;
  /**
   * Draws the loaded scene, or only the surround if there is none.
   * @returns what a page without an off-screen canvas draws itself
   */
  paint(view: ProofView, size: ProofSize): ProofPixels | undefined;
}
