/** What becomes of a canvas on which the graphics card does not take the shaders. */
import { describe, expect, it } from 'vitest';
import { createProofStage } from '../../workers/proof/stage.ts';

/** A card that has WebGL2 and builds no shader. A canvas that has one kind of context gives no other. */
const canvasOfBadCard = () =>
  ({
    getContext: (kind: string) =>
      kind === 'webgl2' ? { createProgram: () => ({}), createShader: () => null } : null,
  }) as unknown as OffscreenCanvas;

describe('a card that does not take the shaders', () => {
  it('is told as lost at once: only another canvas can be drawn on', async () => {
    const stage = createProofStage(canvasOfBadCard(), 'card');
    const told = stage.cardLost.then(() => 'lost');
    const later = new Promise((resolve) => setTimeout(() => resolve('nothing told'), 50));
    expect(await Promise.race([told, later])).toBe('lost');
  });
});
