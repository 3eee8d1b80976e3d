/** What the page asks of the worker that draws the tilt proof. */
import type { Picture, ProofView } from '../core/proof/scene.ts';
import type { ProofSources } from '../core/proof/sources.ts';
import type { TableBlob } from './colour.ts';
import type { AnyWorker } from './worker.ts';

/**
 * Which painter is wanted: the graphics card's, the processor's, or the card's where there is a card. Browsers
 * without one run its programs on the processor, more slowly than the painter that is made for that.
 */
export type PainterWish = 'best' | 'card' | 'processor';

/** Of the canvas, in device pixels. */
export interface ProofSize {
  readonly width: number;
  readonly height: number;
}

/** The print as the page itself lays it on its canvas: row-major RGBA, 8 bit, sRGB-encoded, opaque. */
export interface ProofPixels extends ProofSize {
  readonly pixels: Uint8ClampedArray<ArrayBuffer>;
  readonly left: number;
  readonly top: number;
}

/** Shows the colours as they print. */
export interface ProofLook {
  /** Red, green, blue and how far each is missed. */
  readonly table: TableBlob;
  /** Marks what the paper cannot show. */
  readonly warn: boolean;
}

/** What is proofed, and in which colours; left out: those of the screen. */
export interface LookedSources extends ProofSources {
  readonly look?: ProofLook | undefined;
}

/** Pictures are sent once, by a number, and named by it. */
export interface SentSources extends Omit<LookedSources, 'pictures'> {
  readonly pictures: readonly (number | undefined)[];
}

export interface ProofWorker extends AnyWorker {
  /**
   * Begins to draw, on this canvas from now on. Asked once.
   * @param canvas undefined where the browser cannot hand one over: `paint` then answers with pixels.
   */
  open(canvas: OffscreenCanvas | undefined, wish: PainterWish): Promise<void>;
  /** Resolves when the graphics card is gone for good: this canvas can no longer be drawn on. */
  untilCardLost(): Promise<void>;
  keepPicture(picture: number, content: Picture): void;
  /** Mixes the scene. Pictures that the sources do not name are forgotten. */
  load(sources: SentSources): Promise<void>;
  paint(view: ProofView, size: ProofSize): ProofPixels | undefined;
}
