/**
 * The tilt proof: draws a scene and a view on a canvas. It draws only after a change, at most once in a screen
 * frame. The old scene stays while a new one is loading.
 */
import { createCanvasPainter } from './canvas-painter.ts';
import type { Painter } from './painter.ts';
import type { ProofScene, ProofView } from './scene.ts';
import type { ContextTold } from './webgl-painter.ts';
import { createWebglPainter } from './webgl-painter.ts';

export interface TiltProof {
  /** What draws it now, and where: both change when it has to do without the graphics card. */
  readonly kind: Painter['kind'];
  readonly canvas: HTMLCanvasElement;
  setScene(scene: ProofScene): void;
  setView(view: ProofView): void;
  /** In device pixels. */
  setSize(width: number, height: number): void;
  /** Draws now, without waiting for the next screen frame. */
  draw(): void;
  dispose(): void;
}

/** While frames arrive one by one, their textures are rebuilt at most this often. */
const LOAD_EVERY_MS = 250;
/** Time for sending pictures in one screen frame. */
const LOAD_BUDGET_MS = 12;

/** A context that was lost comes back within a second or so, ms; one that does not stays away. */
const CONTEXT_AWAY_MS = 3000;

/**
 * Puts a canvas into `host` and draws there, with WebGL2 where there is any and as long as there is.
 * @param use `canvas` to do without WebGL2.
 * @param onCardLost told once the graphics card has gone for good, and the proof is drawn without it.
 */
export const createTiltProof = (
  host: HTMLElement,
  use: 'webgl' | 'canvas' = 'webgl',
  onCardLost: () => void = () => undefined,
): TiltProof => {
  let scene: ProofScene | undefined;
  let view: ProofView | undefined;
  let sceneDue = false;
  let loadedAt = -Infinity;
  let due = 0;
  let timer: ReturnType<typeof setTimeout> | undefined;
  let cardTimer: ReturnType<typeof setTimeout> | undefined;

  const ask = () => {
    if (due === 0) due = requestAnimationFrame(() => drawWithin(LOAD_BUDGET_MS));
  };
  const draw = () => drawWithin(Infinity);
  /** Pictures beyond the budget are sent in the next screen frames; until then nothing is drawn. */
  const drawWithin = (budgetMs: number) => {
    cancelAnimationFrame(due);
    due = 0;
    if (view === undefined) return;
    if (sceneDue && scene !== undefined) {
      if (!painter.load(scene, budgetMs)) return ask();
      sceneDue = false;
      loadedAt = performance.now();
    }
    painter.paint(view);
  };
  const askForScene = () => {
    const wait = loadedAt + LOAD_EVERY_MS - performance.now();
    if (timer !== undefined) return;
    if (wait <= 0) {
      sceneDue = true;
      ask();
      return;
    }
    timer = setTimeout(() => {
      timer = undefined;
      sceneDue = true;
      ask();
    }, wait);
  };
  const drawAnew = () => {
    loadedAt = -Infinity;
    if (scene !== undefined) askForScene();
    ask();
  };
  const doWithoutCard = () => {
    const { width, height } = canvas;
    painter.dispose();
    canvas.remove();
    ({ canvas, painter } = setUp(host, 'canvas', told));
    Object.assign(canvas, { width, height });
    drawAnew();
    onCardLost();
  };
  const told = {
    onLost: () => void (cardTimer = setTimeout(doWithoutCard, CONTEXT_AWAY_MS)),
    onRestored: () => {
      clearTimeout(cardTimer);
      drawAnew();
    },
  };
  let { canvas, painter } = setUp(host, use, told);

  return {
    get kind() {
      return painter.kind;
    },
    get canvas() {
      return canvas;
    },
    setScene(next) {
      if (next === scene) return;
      scene = next;
      askForScene();
    },
    setView(next) {
      view = next;
      ask();
    },
    setSize(width, height) {
      if (canvas.width === width && canvas.height === height) return;
      canvas.width = Math.max(1, width);
      canvas.height = Math.max(1, height);
      // Setting the size clears the canvas, so draw at once.
      draw();
    },
    draw,
    dispose() {
      cancelAnimationFrame(due);
      clearTimeout(timer);
      clearTimeout(cardTimer);
      painter.dispose();
      canvas.remove();
    },
  };
};

/** A canvas can hold only one kind of context, so each painter gets its own canvas. */
const setUp = (
  host: HTMLElement,
  use: 'webgl' | 'canvas',
  told: ContextTold,
): { canvas: HTMLCanvasElement; painter: Painter } => {
  const addCanvas = () => host.appendChild(document.createElement('canvas'));
  if (use === 'webgl') {
    const canvas = addCanvas();
    const painter = createWebglPainter(canvas, told);
    if (painter !== undefined) return { canvas, painter };
    canvas.remove();
  }
  const canvas = addCanvas();
  return { canvas, painter: createCanvasPainter(canvas) };
};
