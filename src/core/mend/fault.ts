/**
 * The faults of a print under its lens as plain numbers, and how they move the place seen under each rib. All follows
 * from optics relation 1 with the term of the fault added.
 *
 * Places are in millimetres from the middle of the print: *across* the ribs (upright: right; lying: down) and *along*
 * them (upright: down; lying: right).
 */
import type { Bar } from './counts.ts';
import type { LensSheet } from '../lens/lens.ts';
import { opticalGap } from '../lens/lens.ts';
import { gapAhead, lensPitchFor, tracedGap } from '../lens/traced.ts';
import { MM_PER_INCH, mm } from '../units/units.ts';
import type { SheetSpec } from '../weave/sheet-spec.ts';
import { dotsAcross, dotsAlong } from '../weave/sheet-spec.ts';

/** What was printed, its lens sheet, and where the viewer stands. */
export interface MendSetup {
  /** Nominal. Only its gap is used: the woven pitch is known better than the pitch of the lens. */
  readonly lens: LensSheet;
  /** As woven. */
  readonly sheet: SheetSpec;
  /** The distance the print was woven for. */
  readonly distanceMm: number;
  /** Of the strip or print on which the woven pitch was proved, as far as they were measured. */
  readonly stripBars?: StripBars;
}

/** The pitch that was read from a strip contains how far the strip came out larger or smaller than drawn. */
export interface StripBars {
  readonly across?: Bar;
  readonly along?: Bar;
}

/** A round pocket of air between lens and print, deepest in its middle. */
export interface Bubble {
  readonly acrossMm: number;
  readonly alongMm: number;
  readonly radiusMm: number;
  readonly gapMm: number;
}

/** The faults of a print; `noFaults` is a print as planned. */
export interface Faults {
  /** Printed pitch / wanted pitch, apart from the driver: above 1 too coarse, below 1 too fine. */
  readonly pitchScale: number;
  /** Turn of the print under the lens, seen from the front, radians; clockwise positive. */
  readonly skewRad: number;
  /** How far the print lies out of place across the ribs; right (lying: down) positive. */
  readonly offsetMm: number;
  /** Printed length / drawn length: 0.97 where the driver shrank the page. */
  readonly driverScaleAcross: number;
  readonly driverScaleAlong: number;
  /** The frames under each rib are in reverse order. */
  readonly reversed: boolean;
  /** The lens lies with its ribs across the woven lines. */
  readonly ribsCrossed: boolean;
  /** Spread that ink adds under a rib, as a share of the pitch; 0 as planned. */
  readonly extraSpread: number;
  /** Air between lens and print everywhere, mm. */
  readonly gapMm: number;
  readonly bubble?: Bubble;
  /** The driver resampled the sheet to this dpi. */
  readonly resampledDpi?: number;
  /** How much the driver sharpened: 0 not at all, 1 twice as steep. */
  readonly sharpened: number;
  /** How far every second swath of the print head lies out of step across the ribs. */
  readonly outOfStepMm: number;
  /** Height of a swath, along the ribs. Above 0. */
  readonly swathMm: number;
  /** How many times too far frames move from slot to slot: 1 as planned, at 3 edges separate. */
  readonly deeper: number;
  /** Only the first and the last frame, each in half of the zone. */
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

/** The lens pitch that the woven pitch implies: p = p_v / (1 + g₀ / D) (relation 2). */
export const lensPitchMm = ({ lens, sheet, distanceMm }: MendSetup): number =>
  lensPitchFor(lens, mm(sheet.viewingPitchMm), mm(distanceMm));

/**
 * +1 where a clockwise turn moves the pattern forwards along the ribs, −1 where backwards: across and along swap with
 * the direction of the ribs, and so does the sense of turning.
 */
export const turnSense = (sheet: SheetSpec): 1 | -1 => (sheet.ribs === 'upright' ? 1 : -1);

/**
 * How the place under the rib, u, varies over the print: linear terms, which a shader takes as uniforms, and the
 * terms that are not linear. In zones; 1 is one run through all views. u = middle − eyeMm × perEyeMm + across × (x /
 * W) + along × (y / H), x and y from the middle, W and H the print’s sizes. A bubble adds its own term
 * (`bubbleDepth`).
 */
export interface PhaseTerms {
  /** u at the middle of the print for an eye straight ahead: ½ on a correct print. */
  readonly middle: number;
  /** Decrease of u for each millimetre that the eye moves across: 1 / zone width. */
  readonly perEyeMm: number;
  /** Zones from edge to edge; positive where the print is finer than the lens. */
  readonly across: number;
  /** Zones from end to end. */
  readonly along: number;
  /** Width of the uniform strip that faults add to what an eye sees under a rib, as a share of the pitch. */
  readonly moreSpread: number;
  readonly reversed: boolean;
  readonly ribsCrossed: boolean;
  /** In shares of the print’s sizes, from its middle. */
  readonly bubble?: {
    readonly across: number;
    readonly along: number;
    /** Of the print's size across. */
    readonly radius: number;
    /** At the middle of the bubble. u gains slide × (x / W) − eyeMm × slidePerEyeMm. */
    readonly slide: number;
    readonly slidePerEyeMm: number;
    readonly moreSpread: number;
  };
  /** Every second swath gains `slide`; `count` swaths fill the print along the ribs. */
  readonly swaths?: { readonly slide: number; readonly count: number };
}

/**
 * Relation 1 for the print as it is. The lens’s rib at x shows the print at x (1 + G₀ / D) − G x_e / D, with air added
 * to the gap straight ahead, G₀ = g₀ + air, and to that of a moving eye, G = g' + air. Undoing turn, shift and stretch
 * gives the place in the print’s own pattern; u counts its ribs minus those of the lens.
 * @param lookFromMm distance of the eye; left out: the one that the print was woven for.
 */
export const phaseTerms = (
  setup: MendSetup,
  faults: Faults,
  lookFromMm: number = setup.distanceMm,
): PhaseTerms => {
  const { sheet, lens } = setup;
  const printed = sheet.viewingPitchMm * faults.pitchScale * faults.driverScaleAcross;
  const pitch = lensPitchMm(setup);
  const gap = tracedGap(lens) + faults.gapMm;
  const reach = 1 + (gapAhead(lens) + faults.gapMm) / lookFromMm;
  const [width, height] = [printAcrossMm(sheet), printAlongMm(sheet)];
  const turn = turnSense(sheet) * faults.skewRad;
  const { bubble } = faults;
  return {
    middle: 0.5 - (sheet.offsetMm + faults.offsetMm) / printed,
    perEyeMm: gap / lookFromMm / printed,
    across: ((reach * Math.cos(turn)) / printed - 1 / pitch) * width,
    along: ((reach * Math.sin(turn)) / printed) * height,
    // Ink and defocus spread independently of each other: widths add as squares. Air defocuses by t / n, the way of
    // the light inside, wherever it lands.
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

/** Depth of a round bubble, 1 in the middle to 0 at the edge. @param away distance from the middle, in radii. */
export const bubbleDepth = (away: number): number => (away >= 1 ? 0 : 1 - away * away);

/**
 * u at a place of the print, not wrapped.
 * @param across, along −½ … ½ of the print’s sizes.
 * @param shape size along / size across (keeps a bubble round).
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
