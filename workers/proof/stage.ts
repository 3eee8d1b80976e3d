/** The tilt proof on one canvas: chooses its painter, and knows when the graphics card is gone for good. */
import type { PainterWish, ProofPixels, ProofSize } from '../../src/contract/proof.ts';
import type { ProofScene, ProofView } from '../../src/core/proof/scene.ts';
import { SURROUND } from '../../src/core/proof/scene.ts';
import type { Painter } from './painter.ts';
import { createProcessorPainter } from './processor-painter.ts';
import { createWebglPainter } from './webgl-painter.ts';

export interface ProofStage {
  readonly drawnBy: 'card' | 'processor';
  load(scene: ProofScene): void;
  paint(view: ProofView, size: ProofSize): ProofPixels | undefined;
  /** Resolves when the card is gone for good. */
  readonly cardLost: Promise<void>;
}

/** A context that was lost comes back within a second or so, ms; one that does not stays away. */
const CONTEXT_AWAY_MS = 3000;

/** Names of what runs a graphics card's programs on the processor: of ANGLE, Mesa and Windows. */
const EMULATED = /swiftshader|llvmpipe|softpipe|basic render/i;

const hasCard = (): boolean => {
  const gl = new OffscreenCanvas(1, 1).getContext('webgl2', { failIfMajorPerformanceCaveat: true });
  if (gl === null) return false;
  const named = gl.getExtension('WEBGL_debug_renderer_info');
  const name = String(gl.getParameter(named?.UNMASKED_RENDERER_WEBGL ?? gl.RENDERER));
  gl.getExtension('WEBGL_lose_context')?.loseContext();
  return !EMULATED.test(name);
};

/** Lays the print on the canvas, and the surround about it. */
const layOn = (context: OffscreenCanvasRenderingContext2D) => {
  const { canvas } = context;
  return (print: ProofPixels | undefined, { width, height }: ProofSize): undefined => {
    if (canvas.width !== width) canvas.width = width;
    if (canvas.height !== height) canvas.height = height;
    context.fillStyle = `rgb(${SURROUND} ${SURROUND} ${SURROUND})`;
    context.fillRect(0, 0, width, height);
    if (print === undefined) return;
    const image = new ImageData(print.pixels, print.width, print.height);
    context.putImageData(image, print.left, print.top);
  };
};

/** @param onTaken told where the canvas cannot be drawn on, since the card has its context and does not take the shaders */
const onProcessor = (canvas: OffscreenCanvas | undefined, onTaken: () => void): Painter => {
  if (canvas === undefined) return createProcessorPainter((print) => print);
  const context = canvas.getContext('2d', { alpha: false });
  if (context !== null) return createProcessorPainter(layOn(context));
  onTaken();
  return createProcessorPainter(() => undefined);
};

/**
 * The kernels must be loaded.
 * @param canvas undefined: what is painted is given back.
 */
export const createProofStage = (
  canvas: OffscreenCanvas | undefined,
  wish: PainterWish,
): ProofStage => {
  let scene: ProofScene | undefined;
  let last: readonly [ProofView, ProofSize] | undefined;
  let tellLost: () => void = () => undefined;
  const cardLost = new Promise<void>((resolve) => (tellLost = resolve));
  let timer: ReturnType<typeof setTimeout> | undefined;

  const byCard =
    canvas === undefined || wish === 'processor' || (wish === 'best' && !hasCard())
      ? undefined
      : createWebglPainter(canvas, {
          onLost: () => (timer = setTimeout(tellLost, CONTEXT_AWAY_MS)),
          onRestored: () => {
            clearTimeout(timer);
            if (scene !== undefined) painter.load(scene);
            if (last !== undefined) painter.paint(...last);
          },
        });
  const painter: Painter = byCard ?? onProcessor(canvas, tellLost);

  return {
    drawnBy: byCard === undefined ? 'processor' : 'card',
    cardLost,
    load(next) {
      scene = next;
      painter.load(next);
    },
    paint(view, size) {
      last = [view, size];
      return painter.paint(view, size);
    },
  };
};
