/**
 * What can be wrong with a print under its lens, as plain numbers, and where the place seen under each
 * rib goes because of it. Everything comes from optics relation 1 with the fault's own term in it.
 *
 * Places are millimetres from the middle of the print: *across* the ribs (upright ribs: to the right;
 * lying ribs: down) and *along* them (upright: down; lying: to the right).
 */
import type { LensSheet } from '../lens/lens.ts';
import { opticalGap } from '../lens/lens.ts';
import { MM_PER_INCH } from '../units/units.ts';
import type { SheetSpec } from '../weave/sheet-spec.ts';
import { dotsAcross, dotsAlong } from '../weave/sheet-spec.ts';

/** What was printed, the sheet it lies under, and where the person stands. */
export interface MendSetup {
  /** Nominal: its gap counts. Its pitch does not: the woven pitch is the better known of the two. */
  readonly lens: LensSheet;
  /** As woven. */
  readonly sheet: SheetSpec;
  /** The distance the print was woven for. */
  readonly distanceMm: number;
}

/** Air between the lens and the print in one place, round, deepest in its middle. */
export interface Bubble {
  readonly acrossMm: number;
  readonly alongMm: number;
  readonly radiusMm: number;
  readonly gapMm: number;
}

/** Faults of a print. `noFaults` is a print that came out as planned. */
export interface Faults {
  /** Printed pitch over the pitch wanted, driver apart: above 1 too coarse, below 1 too fine. */
  readonly pitchScale: number;
  /** How the print lies turned under the lens, seen from the front; clockwise positive, radians. */
  readonly skewRad: number;
  /** How far the print lies beside its place across the ribs; right (lying: down) positive. */
  readonly offsetMm: number;
  /** Printed length over drawn length: 0.97 where the driver shrank the page. */
  readonly driverScaleAcross: number;
  readonly driverScaleAlong: number;
  /** Frames laid the other way round under each rib. */
  readonly reversed: boolean;
  /** The lens's ribs run square to the woven lines. */
  readonly ribsCrossed: boolean;
  /** What ink adds to the spread under a rib, as a share of the pitch. 0: as planned. */
  readonly extraSpread: number;
  /** Air between lens and print everywhere. */
  readonly gapMm: number;
  readonly bubble?: Bubble;
  /** The driver brought the sheet to a grid of its own, of this dpi. */
  readonly resampledDpi?: number;
  /** How strongly the driver sharpened: 0 not at all, 1 edges twice as steep. */
  readonly sharpened: number;
  /** Every second swath of the print head lies this far beside the others, across the ribs. */
  readonly outOfStepMm: number;
  /** Height of a swath, along the ribs. Above 0. */
  readonly swathMm: number;
  /** How many times too far frames move from slot to slot: 1 as they are, 3 edges stand apart. */
  readonly deeper: number;
  /** Only the first frame and the last, half the zone each. */
  readonly flip: boolean;
}

export const noFaults: Faults = {
  pitchScale: 1,
  skewRad: 0,
  offsetMm: 0,
  driverScaleAcross: 1,
  driverScaleAlong: 1,
  reversed: false,
  ribsCrossed: false,
  extraSpread: 0,
  gapMm: 0,
  sharpened: 0,
  outOfStepMm: 0,
  swathMm: 10,
  deeper: 1,
  flip: false,
};

/** Size of the print across the ribs and along them, mm. */
export const printAcrossMm = (sheet: SheetSpec): number =>
  (dotsAcross(sheet) * MM_PER_INCH) / sheet.acrossDpi;
export const printAlongMm = (sheet: SheetSpec): number =>
  (dotsAlong(sheet) * MM_PER_INCH) / sheet.alongDpi;

/** The lens's own pitch, as the woven pitch implies it: p = p_v / (1 + g / D) (relation 2). */
export const lensPitchMm = ({ lens, sheet, distanceMm }: MendSetup): number =>
  sheet.viewingPitchMm / (1 + opticalGap(lens) / distanceMm);

/**
 * +1 where a print turned clockwise carries the pattern on along the ribs, −1 where it carries it
 * back: across and along change places with the ribs, and with them the sense of turning.
 */
export const turnSense = (sheet: SheetSpec): 1 | -1 => (sheet.ribs === 'upright' ? 1 : -1);

/**
 * Where the place under the rib, u, goes over the print: linear terms that a shader can take as
 * uniforms, and what is not linear beside them. Zones: 1 is one run through all views.
 * u = middle − eyeMm × perEyeMm + across × (x / W) + along × (y / H), x and y from the middle, W and H
 * the print's sizes. Under a bubble, more (`bubbleSlide`).
 */
export interface PhaseTerms {
  /** u at the middle of the print for an eye straight ahead of it: ½ on a print that lies right. */
  readonly middle: number;
  /** Zones by which u falls for each millimetre the eye moves across: 1 / zone width. */
  readonly perEyeMm: number;
  /** Zones from one edge to the other; positive: print finer than the lens. */
  readonly across: number;
  /** Zones from one end to the other. */
  readonly along: number;
  /** Even strip by which faults widen what an eye sees under a rib, as a share of the pitch. */
  readonly moreSpread: number;
  readonly reversed: boolean;
  readonly ribsCrossed: boolean;
  /** In shares of the print's sizes, from its middle. */
  readonly bubble?: {
    readonly across: number;
    readonly along: number;
    /** Of the print's size across. */
    readonly radius: number;
    /** At the bubble's middle. u gains slide × (x / W) − eyeMm × slidePerEyeMm. */
    readonly slide: number;
    readonly slidePerEyeMm: number;
    readonly moreSpread: number;
  };
  /** Every second swath gains `slide`; swaths to the print's size along. */
  readonly swaths?: { readonly slide: number; readonly count: number };
}

/**
 * Relation 1 for the print as it is. The lens's rib at x sees the print at
 * x (1 + G / D) − G x_e / D with G = g + air; the print there is at the place of its own that undoes
 * turn, shift and stretch, and u counts its ribs less the lens's.
 * @param lookFromMm the eye's distance; left out: the one the print was woven for.
 */
export const phaseTerms = (
  setup: MendSetup,
  faults: Faults,
  lookFromMm: number = setup.distanceMm,
): PhaseTerms => {
  const { sheet, lens } = setup;
  const printed = sheet.viewingPitchMm * faults.pitchScale * faults.driverScaleAcross;
  const pitch = lensPitchMm(setup);
  const gap = opticalGap(lens) + faults.gapMm;
  const reach = 1 + gap / lookFromMm;
  const [width, height] = [printAcrossMm(sheet), printAlongMm(sheet)];
  const turn = turnSense(sheet) * faults.skewRad;
  const { bubble } = faults;
  return {
    middle: 0.5 - faults.offsetMm / printed,
    perEyeMm: gap / lookFromMm / printed,
    across: ((reach * Math.cos(turn)) / printed - 1 / pitch) * width,
    along: ((reach * Math.sin(turn)) / printed) * height,
    // Ink and defocus spread apart from each other: widths add as squares.
    moreSpread: Math.hypot(faults.extraSpread, faults.gapMm / opticalGap(lens)),
    reversed: faults.reversed,
    ribsCrossed: faults.ribsCrossed,
    ...(bubble === undefined
      ? {}
      : {
          bubble: {
            across: bubble.acrossMm / width,
            along: bubble.alongMm / height,
            radius: bubble.radiusMm / width,
            slide: ((bubble.gapMm / lookFromMm) * width) / printed,
            slidePerEyeMm: bubble.gapMm / lookFromMm / printed,
            moreSpread: bubble.gapMm / opticalGap(lens),
          },
        }),
    ...(faults.outOfStepMm === 0
      ? {}
      : {
          swaths: { slide: -faults.outOfStepMm / printed, count: height / faults.swathMm },
        }),
  };
};

/** Depth of a bubble beside its middle, 1 … 0: a round blister. `away` in radii. */
export const bubbleDepth = (away: number): number => (away >= 1 ? 0 : 1 - away * away);

/**
 * u at a place of the print, not wrapped. @param across, along −½ … ½ of the print's sizes.
 * @param shape print's size along over its size across (for a bubble's roundness).
 */
export const placeAt = (
  terms: PhaseTerms,
  across: number,
  along: number,
  eyeMm: number,
  shape = 1,
): number => {
  let u = terms.middle - eyeMm * terms.perEyeMm + terms.across * across + terms.along * along;
  const { bubble, swaths } = terms;
  if (bubble !== undefined) {
    const away = Math.hypot(across - bubble.across, (along - bubble.along) * shape) / bubble.radius;
    u += bubbleDepth(away) * (bubble.slide * across - eyeMm * bubble.slidePerEyeMm);
  }
  if (swaths !== undefined && Math.floor((along + 0.5) * swaths.count) % 2 === 1) u += swaths.slide;
  return u;
};
