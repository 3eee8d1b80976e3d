/**
 * The pitch strip: bands around a centre woven pitch, each woven for its own pitch. Across means across the ribs,
 * along means along them; with lying ribs the whole strip is turned by a quarter, its left edge on top.
 *
 * Each band has one dark line for each rib, a quarter of a rib wide. Through the lens, a band of the right pitch is
 * dark or bright from edge to edge, and changes everywhere together as the head moves. Any other band shows fringes
 * that run along it.
 */
import type { Ribs } from '../weave/sheet-spec.ts';

/** Everything that the dots of the strip depend on. */
export interface StripSpec {
  readonly acrossDpi: number;
  readonly alongDpi: number;
  readonly ribs: Ribs;
  /** Woven pitch of each band, LPI, rising. */
  readonly bandsLpi: readonly number[];
  /** Dots of a band across the ribs. */
  readonly bandDots: number;
  /** For the words on the strip. */
  readonly lensLpi: number;
  readonly readFromMm: number;
  readonly barsIn: 'mm' | 'in';
  /** Which job, day and paper it is of, for whoever finds it; left out: nothing. Any text. */
  readonly foot?: string;
}

/** Bands as the person chooses them: an odd number in equal steps around the centre. */
export interface BandPlan {
  readonly centreLpi: number;
  /** From the centre to the outermost band, either way. */
  readonly spreadLpi: number;
  /** Odd, 3 or more. */
  readonly bands: number;
}

export const MOST_BANDS = 41;

/** Bands are labelled to a thousandth of an LPI and have exactly the pitch of their label. */
const onLabel = (lpi: number): number => Math.round(lpi * 1000) / 1000;

export const bandStep = ({ spreadLpi, bands }: BandPlan): number => (2 * spreadLpi) / (bands - 1);

/** LPI of each band, rising. @throws RangeError that names the field. */
export const bandsOf = (plan: BandPlan): number[] => {
  const { centreLpi, spreadLpi, bands } = plan;
  if (!(Number.isInteger(bands) && bands % 2 === 1 && bands >= 3 && bands <= MOST_BANDS))
    throw new RangeError(
      `bands: expected an odd number from 3 to ${MOST_BANDS}, received ${bands}`,
    );
  if (!(spreadLpi > 0 && spreadLpi < centreLpi))
    throw new RangeError(
      `spreadLpi: expected above 0 and below the centre ${centreLpi}, received ${spreadLpi}`,
    );
  return Array.from({ length: bands }, (_, band) =>
    onLabel(centreLpi + (band - (bands - 1) / 2) * bandStep(plan)),
  );
};

export const bandLabel = (lpi: number): string => lpi.toFixed(3);

/** What the advice depends on. */
export interface AdviceFacts {
  /** The woven pitch as far as it is known, and its uncertainty. */
  readonly centreLpi: number;
  readonly unsureLpi: number;
  /** Width of the bands, inches across the ribs. */
  readonly acrossIn: number;
  /** τ, zones from edge to edge. */
  readonly budgetZones: number;
  /** How many bands fit on the paper. */
  readonly room: number;
  /** 2 halves the steps, for a second strip around a pitch that is nearly known. */
  readonly finer?: number;
}

const FEWEST_EACH_SIDE = 4;
const MOST_EACH_SIDE = 10;

/**
 * Fine steps where the uncertainty allows it: one step drifts by the budget over the width (relation 7), and the
 * bands reach as far as the uncertainty. Where that takes too many bands the steps grow: a coarse strip, whose
 * fringes can still be counted.
 */
export const adviseBands = (
  facts: AdviceFacts,
): BandPlan & { readonly grain: 'fine' | 'coarse' } => {
  const step = Math.max(
    0.001,
    Math.floor((facts.budgetZones / facts.acrossIn / (facts.finer ?? 1)) * 1000) / 1000,
  );
  const most = Math.max(1, Math.min(MOST_EACH_SIDE, Math.floor((facts.room - 1) / 2)));
  const wanted = Math.max(FEWEST_EACH_SIDE, Math.ceil(facts.unsureLpi / step));
  const each = Math.min(most, wanted);
  const fine = each * step >= facts.unsureLpi;
  const taken = fine ? step : Math.ceil((facts.unsureLpi / each) * 1000) / 1000;
  return {
    centreLpi: onLabel(facts.centreLpi),
    spreadLpi: onLabel(each * taken),
    bands: 2 * each + 1,
    grain: fine ? 'fine' : 'coarse',
  };
};
