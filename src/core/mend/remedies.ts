/** What can be saved without a new print. */
import { gapAhead } from '../lens/traced.ts';
import type { MendSetup } from './fault.ts';
import { printAcrossMm } from './fault.ts';
import type { CountReading } from './read-counts.ts';

export type Remedy =
  /** Turn the print on the lens by −rad; its ends then move by `endsMm` against each other. */
  | { readonly kind: 'turn'; readonly rad: number; readonly endsMm: number }
  /** Slide the print under the lens, right (lying: down) positive. */
  | { readonly kind: 'shift'; readonly mm: number }
  /** Hang it where it is seen from this distance, for which the print is right. */
  | { readonly kind: 'stand-at'; readonly distanceMm: number; readonly plusMinusMm: number }
  /** Press the lens down: the air under it spreads the picture. */
  | { readonly kind: 'press'; readonly airMm: number };

/** Nobody looks at a print from nearer than an arm or further than a hall (our own values, no source). */
const NEAREST_MM = 150;
const FURTHEST_MM = 10_000;

/**
 * The distance for which the print is right as it is. Its pitch is p (1 + g₀ / D') for some D' (relation 2), so D' = g₀
 * p / (p_print − p). Undefined where the print is too fine for any distance or nobody stands at that distance.
 * @param bands zones across seen from `fromMm`; positive: print finer than the lens.
 */
export const otherDistance = (
  { lens, sheet }: MendSetup,
  bands: number,
  fromMm: number,
): number | undefined => {
  const gap = gapAhead(lens);
  // bands = W (1 / p_print − 1 / p_v(from)) (1 + g / from); in units of 1 / p: what D' must add.
  const perMm = bands / printAcrossMm(sheet);
  const inversePitch = (1 + gap / fromMm) / sheet.viewingPitchMm - perMm;
  const reach = inversePitch === 0 ? 0 : sheet.viewingPitchMm * inversePitch - 1;
  const distance = gap / reach;
  return reach > 0 && distance >= NEAREST_MM && distance <= FURTHEST_MM ? distance : undefined;
};

/** What helps the existing print, the most helpful first. Empty: only a new print helps. */
export const remediesOf = (
  setup: MendSetup,
  reading: CountReading,
  budgetZones: number,
): Remedy[] => {
  const remedies: Remedy[] = [];
  const { skew, offsetMm, pitch } = reading;
  const airMm = reading.blur?.airMm;
  if (skew?.signKnown === true && Math.abs(skew.bands.value) > skew.bands.plusMinus)
    remedies.push({ kind: 'turn', rad: -skew.rad.value, endsMm: skew.endsMm });
  if (offsetMm !== undefined && Math.abs(offsetMm.value) > offsetMm.plusMinus)
    remedies.push({ kind: 'shift', mm: -offsetMm.value });
  if (airMm !== undefined && airMm.value > airMm.plusMinus)
    remedies.push({ kind: 'press', airMm: airMm.value });
  if (
    pitch !== undefined &&
    pitch.orLpi === undefined &&
    Math.abs(pitch.bands.value) > budgetZones
  ) {
    const at = (bands: number) => otherDistance(setup, bands, setup.distanceMm);
    const { value, plusMinus } = pitch.bands;
    const distanceMm = at(value);
    if (distanceMm !== undefined) {
      const ends = [at(value - plusMinus), at(value + plusMinus)].map((end) => end ?? FURTHEST_MM);
      remedies.push({
        kind: 'stand-at',
        distanceMm,
        plusMinusMm: Math.abs(ends[1]! - ends[0]!) / 2,
      });
    }
  }
  return remedies;
};
