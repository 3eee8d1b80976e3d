/**
 * What a head that moves to and fro in front of the middle of the print finds: where the picture jumps from its last
 * frame to its first, and how long both are visible. Traced through the whole open rib (relation 8), for any air
 * under the lens and any spread of ink. The two can be told apart, since air shortens the way to the jump and ink
 * does not.
 */
import { zoneWidth } from '../lens/traced.ts';
import { dotSpread } from '../lens/mix.ts';
import { standing } from '../lens/focus.ts';
import { traceRib } from '../lens/trace.ts';
import { MM_PER_INCH, mm } from '../units/units.ts';
import type { MendSetup } from './fault.ts';
import { lensPitchMm } from './fault.ts';

/** No jump is visible where first and last frame change by less than this over the zone (our own value). */
const MUSH = 0.5;

/** One line of sight: where it lands without air, and how far a mm of air moves the landing. */
interface Sight {
  readonly landingMm: number;
  readonly perAir: number;
  readonly weight: number;
}

export interface Jump {
  /** From straight ahead to where first and last frame are equally strong, mm of head travel. */
  readonly atMm: number;
  /** Head travel with both visible: the weaker is at least a tenth of the two. */
  readonly takesMm: number;
}

export interface JumpModel {
  /**
   * The jump on the way to the right; undefined where there is none within the head’s travel.
   * @param spread of ink beyond the plan, in pitches.
   * @param offsetMm of the print, right positive.
   */
  readonly jump: (airMm: number, spread: number, offsetMm?: number) => Jump | undefined;
  /** Mean landing to the opposite side of the rib’s middle, for a head this far to one side. */
  readonly beside: (headMm: number, airMm: number) => number;
}

const HEADS = 90;
const RAYS = 24;
/** First and last frame are both visible while the weaker is at least this share of the two (our own value), */
const GHOST_SEEN = 0.1;
/** and both together at least this share of their largest sum (our own value). */
const NOTICED = 0.15;

/** @param printedMm printed pitch. @param fromMm distance of the eye. */
const jumpModel = (setup: MendSetup, fromMm: number, printedMm: number): JumpModel => {
  const { sheet } = setup;
  const lens = standing(setup.lens)?.lens ?? setup.lens;
  const pitch = lensPitchMm(setup);
  const step = (1.5 * zoneWidth(lens, mm(fromMm))) / HEADS;
  const heads = Array.from({ length: HEADS }, (_, i) => sightsOf(lens, i * step, fromMm));
  const dot = dotSpread(MM_PER_INCH / sheet.acrossDpi, pitch, sheet.columns);
  const slotMm = printedMm / sheet.viewSlots;

  const made = new Map<string, Jump | undefined>();
  const jump = (airMm: number, spread: number, offsetMm = 0): Jump | undefined => {
    const key = `${airMm}:${spread}:${offsetMm}`;
    if (!made.has(key)) made.set(key, jumpFor(airMm, spread, offsetMm));
    return made.get(key);
  };
  const jumpFor = (airMm: number, spread: number, offsetMm: number): Jump | undefined => {
    const strip = Math.max(1e-3, Math.hypot(dot, spread)) * pitch;
    const [first, last] = [new Float64Array(HEADS), new Float64Array(HEADS)];
    heads.forEach((sights, i) => {
      for (const { landingMm, perAir, weight } of sights) {
        // To the right the eye looks left: from u = ½ down to 0, where the last view ends and the first of the next
        // rib begins. All repeats with the pitch.
        const ribs = (offsetMm - landingMm - airMm * perAir) / printedMm - 0.5;
        const past = (ribs - Math.round(ribs)) * printedMm;
        for (let rib = -1; rib <= 1; rib += 1) {
          const from = rib * printedMm;
          first[i]! += weight * covered(past, strip, from, from + slotMm);
          last[i]! += weight * covered(past, strip, from - slotMm, from);
        }
      }
    });
    return readJump(first, last, step);
  };
  const beside = (headMm: number, airMm: number): number => {
    const at = Math.min(HEADS - 1.001, Math.abs(headMm) / step);
    const low = Math.floor(at);
    const mean = (i: number) =>
      heads[i]!.reduce(
        (sum, { landingMm, perAir, weight }) => sum - weight * (landingMm + airMm * perAir),
        0,
      );
    const here = mean(low);
    return Math.sign(headMm) * (here + (mean(low + 1) - here) * (at - low));
  };
  return { jump, beside };
};

let lastModel: { readonly key: string; readonly model: JumpModel } | undefined;

/** Keeps the last model: every count that is typed asks for the same one. See `JumpModel`. */
export const jumpModelOf = (setup: MendSetup, fromMm: number, printedMm: number): JumpModel => {
  const { viewingPitchMm, viewSlots, acrossDpi, columns } = setup.sheet;
  const sheet = [viewingPitchMm, viewSlots, acrossDpi, columns];
  const key = JSON.stringify([setup.lens, setup.distanceMm, sheet, fromMm, printedMm]);
  if (lastModel?.key !== key) lastModel = { key, model: jumpModel(setup, fromMm, printedMm) };
  return lastModel.model;
};

/** Share of a uniform strip around `middle` that lies between two places. */
const covered = (middle: number, strip: number, from: number, to: number): number =>
  Math.max(0, Math.min(to, middle + strip / 2) - Math.max(from, middle - strip / 2)) / strip;

/** Lines of sight of one head, weights summing to 1; by relation 1 where the rib cannot be traced. */
const sightsOf = (lens: MendSetup['lens'], headMm: number, fromMm: number): Sight[] => {
  const eye = { offsetMm: mm(headMm), distanceMm: mm(fromMm) };
  try {
    const here = traceRib(lens, eye, RAYS);
    const deeper = traceRib({ ...lens, thicknessMm: mm(lens.thicknessMm + 1) }, eye, RAYS);
    const byEntry = new Map(deeper.map((ray) => [ray.entryMm as number, ray]));
    const whole = here.reduce((sum, { weight }) => sum + weight, 0);
    return here.map(({ entryMm, landingMm, weight }) => {
      // One more mm of lens moves the landing by the slope inside; Snell’s law again at the flat back.
      const slope = (byEntry.get(entryMm)?.landingMm ?? landingMm) - landingMm;
      const sine = Math.min(0.999, Math.abs((lens.index * slope) / Math.hypot(1, slope)));
      return {
        landingMm,
        perAir: (Math.sign(slope) * sine) / Math.sqrt(1 - sine * sine),
        weight: weight / whole,
      };
    });
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    const slope = headMm / fromMm;
    return [{ landingMm: -(lens.thicknessMm / lens.index) * slope, perAir: -slope, weight: 1 }];
  }
};

/** Undefined where there is no jump, or too much blur for one to show. */
const readJump = (first: Float64Array, last: Float64Array, step: number): Jump | undefined => {
  const sums = first.map((one, i) => one + last[i]!);
  const most = sums.reduce((a, b) => Math.max(a, b), 0);
  const least = sums.reduce((a, b) => Math.min(a, b), Infinity);
  if (least > MUSH * most) return undefined;
  // How far the ghost exceeds what is noticed; below 0 it is not.
  const ghost = sums.map((sum, i) =>
    sum < NOTICED * most
      ? -GHOST_SEEN
      : Math.min(first[i]!, last[i]!) / Math.max(sum, 1e-12) - GHOST_SEEN,
  );
  // The first place where the first frame overtakes the last, both strong.
  let cross = -1;
  for (let i = 1; i < HEADS && cross < 0; i += 1) {
    const overtakes = first[i]! >= last[i]! && first[i - 1]! < last[i - 1]!;
    if (overtakes && sums[i]! > 0.5 * most) cross = i;
  }
  if (cross < 0) return undefined;
  const zero = (a: number, b: number) => (a === b ? 0 : a / (a - b));
  const [before, after] = [first[cross - 1]! - last[cross - 1]!, first[cross]! - last[cross]!];
  const at = cross - 1 + zero(before, after);
  let low = cross - 1;
  while (low > 0 && ghost[low]! >= 0) low -= 1;
  let high = cross;
  while (high < HEADS - 1 && ghost[high]! >= 0) high += 1;
  const from = low + Math.min(1, zero(ghost[low]!, Math.max(0, ghost[low + 1]!)));
  const to = high - Math.min(1, zero(ghost[high]!, Math.max(0, ghost[high - 1]!)));
  // Visible all the time is one whole repeat.
  return { atMm: at * step, takesMm: Math.min(2 * at, Math.max(0, to - from)) * step };
};
