/**
 * The tilt proof in a box of the page: a canvas that a worker draws on. It is drawn only after a change, at most once
 * in a screen frame, and one picture after the other: what changes meanwhile is drawn next. The old scene stays
 * while a new one is loading.
 */
import type { ProofDrawing } from '../../calls/proof.ts';
import { drawProof } from '../../calls/proof.ts';
import type { LookedSources, PainterWish, ProofPixels, ProofSize } from '../../contract/proof.ts';
import type { ProofView } from '../../core/proof/scene.ts';
import { SURROUND } from '../../core/proof/scene.ts';

export interface TiltProof {
  setSources(sources: LookedSources): void;
  setView(view: ProofView): void;
  /** In device pixels. */
  setSize(width: number, height: number): void;
  dispose(): void;
}

/** What keeps it from being drawn as it was: without the card it goes on, without a worker it does not. */
export type ProofTrouble = 'card-lost' | 'not-drawn';

/** While frames arrive one by one, they are sent at most this often. */
const LOAD_EVERY_MS = 250;

/** A worker that ends is replaced so often, and then told of. */
const MOST_WORKERS = 3;

/** Where the browser cannot hand a canvas to a worker: what the worker has drawn, laid on it here. */
const layPrint = (canvas: HTMLCanvasElement, size: ProofSize, print: ProofPixels) => {
  Object.assign(canvas, { width: size.width, height: size.height });
  const context = canvas.getContext('2d', { alpha: false });
  if (context === null) return;
  context.fillStyle = `rgb(${SURROUND} ${SURROUND} ${SURROUND})`;
  context.fillRect(0, 0, size.width, size.height);
  const image = new ImageData(print.pixels, print.width, print.height);
  context.putImageData(image, print.left, print.top);
};

/** Loads at once, or as soon as the load before is long enough ago. */
const pacedLoads = (load: () => void) => {
  let doneAt = -Infinity;
  let timer: ReturnType<typeof setTimeout> | undefined;
  const now = () => {
    timer = undefined;
    load();
  };
  return {
    ask() {
      if (timer !== undefined) return;
      const wait = doneAt + LOAD_EVERY_MS - performance.now();
      if (wait <= 0) load();
      else timer = setTimeout(now, wait);
    },
    done: () => void (doneAt = performance.now()),
    end: () => clearTimeout(timer),
  };
};

/**
 * Puts a canvas into `host` and has it drawn.
 * @param drawOn has a worker draw on a canvas
 */
export const createTiltProof = (
  host: HTMLElement,
  wish: PainterWish,
  onTrouble: (trouble: ProofTrouble) => void,
  drawOn = drawProof,
): TiltProof => {
  let sources: LookedSources | undefined;
  let view: ProofView | undefined;
  let size: ProofSize | undefined;
  let sourcesDue = false;
  let viewDue = false;
  let due = 0;
  let workers = 0;
  let canvas: HTMLCanvasElement | undefined;
  /** Undefined once it is not drawn any more. */
  let drawing: ProofDrawing | undefined;
  let busy = false;

  const ask = () => {
    viewDue = true;
    if (due === 0 && !busy) due = requestAnimationFrame(() => void draw());
  };
  const draw = async () => {
    due = 0;
    const by = drawing;
    if (by === undefined || view === undefined || size === undefined) return;
    busy = true;
    try {
      if (sourcesDue && sources !== undefined) {
        sourcesDue = false;
        await by.load(sources);
        loads.done();
      }
      viewDue = false;
      const drawnSize = size;
      const print = await by.paint(view, drawnSize);
      if (by === drawing && canvas !== undefined && print !== undefined)
        layPrint(canvas, drawnSize, print);
    } catch {
      if (by === drawing) begin(wish);
    }
    // Another worker has taken over, and asks for itself.
    if (by !== drawing) return;
    busy = false;
    // Sources that came while others were loading are still to be loaded.
    if (viewDue || sourcesDue) ask();
  };
  const loads = pacedLoads(() => {
    sourcesDue = true;
    ask();
  });
  const stop = () => {
    drawing?.end();
    drawing = undefined;
    canvas?.remove();
  };
  /** A canvas can be handed over once, so each worker gets its own. */
  const begin = (painter: PainterWish) => {
    stop();
    workers += 1;
    if (workers > MOST_WORKERS) return onTrouble('not-drawn');
    canvas = host.appendChild(document.createElement('canvas'));
    const handed =
      'transferControlToOffscreen' in canvas ? canvas.transferControlToOffscreen() : undefined;
    drawing = drawOn(handed, painter, {
      onCardLost() {
        begin('processor');
        onTrouble('card-lost');
      },
      onGone: () => begin(painter),
    });
    busy = false;
    sourcesDue = sources !== undefined;
    ask();
  };
  begin(wish);

  return {
    setSources(next) {
      if (next === sources) return;
      sources = next;
      loads.ask();
    },
    setView(next) {
      view = next;
      ask();
    },
    setSize(width, height) {
      if (size?.width === width && size.height === height) return;
      size = { width: Math.max(1, width), height: Math.max(1, height) };
      ask();
    },
    dispose() {
      cancelAnimationFrame(due);
      loads.end();
      stop();
    },
  };
};
