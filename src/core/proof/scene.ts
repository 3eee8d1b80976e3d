/**
 * What the tilt proof draws, as plain data: the pictures and how they lie under the ribs (the scene), and where
 * the eye is (the view). The scene changes with the job, the view at every turn.
 */
import type { Blur } from '../lens/mix.ts';

/** Row-major RGBA, 8 bit, sRGB-encoded, opaque; length columns × rows × 4. */
export interface Picture {
  readonly pixels: Uint8Array<ArrayBuffer>;
  readonly columns: number;
  readonly rows: number;
}

/**
 * *Across* means across the ribs: left to right for upright ribs, top to bottom for lying ones. Positions across
 * are lenticules from the near edge of the first one that the print touches, where the pictures begin: they
 * reach from 0 to `lenticules`.
 */
export interface ProofScene {
  /** Distinct frames; undefined where one is not ready yet. */
  readonly frames: readonly (Picture | undefined)[];
  /** For each view slot, which of `frames` it shows. */
  readonly slots: readonly number[];
  readonly ribs: 'upright' | 'lying';
  readonly widthMm: number;
  readonly heightMm: number;
  /** Lenticules that the print touches, at least partly. */
  readonly lenticules: number;
  /** Where the print's edge lies, 0 … 1, and how many lenticules it is wide. */
  readonly acrossStart: number;
  readonly acrossSpan: number;
}

/** A shift of the views, linear over the print, in zones: 1 is one run through all views. */
export interface Slide {
  readonly offset: number;
  /** From one edge of the print to the other, across the ribs and along them. */
  readonly across: number;
  readonly along: number;
}

/**
 * How far the place that an eye sees differs over the print from the place at its middle, since every rib is seen in a
 * direction of its own. Both lists hold DRIFT_STEPS + 1 values from one edge to the other across the ribs, in zones.
 */
export interface Drift {
  /** On the line through the middle of the print. */
  readonly across: readonly number[];
  /** What is added at the ends of the ribs; between, by the square of the way from the middle. */
  readonly ends: readonly number[];
}

/** A sixteenth of the print bends by less than a two-hundredth of a view slot. */
export const DRIFT_STEPS = 16;

export interface ProofView {
  /** u, the place under its rib that the eye sees at the middle of the print (optics relation 1). */
  readonly place: number;
  /** The same for the right eye, when both are drawn: `place` is then the left eye's. */
  readonly rightPlace?: number;
  /** Of either eye; left out: the place is the same everywhere. */
  readonly drift?: Drift;
  readonly rightDrift?: Drift;
  readonly slide: Slide;
  readonly blur: Blur;
}

/** A rectangle in device pixels from the top left. */
export interface Box {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

/** The grey around the print: L* 50, neutral for judging colour (CIE 1976 lightness; sRGB code 119). */
export const SURROUND = 119;

export const noSlide: Slide = { offset: 0, across: 0, along: 0 };

/**
 * What the drift adds to u.
 * @param fromMiddle across the ribs, −½ … ½; beyond an edge as at the edge.
 * @param along along the ribs, 0 … 1.
 */
export const driftAt = (drift: Drift | undefined, fromMiddle: number, along: number): number => {
  if (drift === undefined) return 0;
  const step = Math.min(1, Math.max(0, fromMiddle + 0.5)) * DRIFT_STEPS;
  const low = Math.min(DRIFT_STEPS - 1, Math.floor(step));
  const between = (list: readonly number[]) =>
    list[low]! + (list[low + 1]! - list[low]!) * (step - low);
  return between(drift.across) + between(drift.ends) * (2 * along - 1) ** 2;
};

/** The largest box of the print's shape in the middle of the canvas, in whole pixels. */
export const printBox = (scene: ProofScene, width: number, height: number): Box => {
  const scale = Math.min(width / scene.widthMm, height / scene.heightMm);
  const boxWidth = Math.max(1, Math.min(width, Math.round(scene.widthMm * scale)));
  const boxHeight = Math.max(1, Math.min(height, Math.round(scene.heightMm * scale)));
  return {
    left: Math.floor((width - boxWidth) / 2),
    top: Math.floor((height - boxHeight) / 2),
    width: boxWidth,
    height: boxHeight,
  };
};

/** Lenticules in a pixel of the box: below 1 the ribs are visible. */
export const lenticulesPerPixel = (scene: ProofScene, box: Box): number =>
  scene.acrossSpan / (scene.ribs === 'upright' ? box.width : box.height);

/**
 * The frame to draw for each view slot: its own if that is ready, else the ready one of the nearest slot, so that
 * the proof shows something from the first frame on. Empty while none is ready.
 */
export const slotsReady = (scene: ProofScene): number[] => {
  const ready = (slot: number) => {
    const frame = scene.slots[slot];
    return frame !== undefined && scene.frames[frame] !== undefined ? frame : undefined;
  };
  const count = scene.slots.length;
  const drawn = scene.slots.map((_, slot) => {
    for (let away = 0; away < count; away += 1) {
      const frame = ready(slot - away) ?? ready(slot + away);
      if (frame !== undefined) return frame;
    }
    return -1;
  });
  return drawn.includes(-1) ? [] : drawn;
};
