/**
 * From counts to numbers: what the bands, the jumps and the ruler say of pitch, skew, place, scale, gap
 * and spread, each with its doubt. All signs follow from relation 1 (see `phaseTerms`): a print too fine
 * has bands that run with the head, one turned clockwise has bands that sink as the head goes right.
 */
import { opticalGap, viewingPitchAt } from '../lens/lens.ts';
import { dotSpread } from '../lens/mix.ts';
import { evenWidth, spot } from '../lens/spot.ts';
import { viewThrough } from '../pitch/photo/view.ts';
import { MM_PER_INCH, mm } from '../units/units.ts';
import type { Counts, Estimate } from './counts.ts';
import { COUNT_SIGMA, HEAD_SIGMA_MM, RULER_SIGMA_MM } from './counts.ts';
import type { MendSetup } from './fault.ts';
import { printAcrossMm, printAlongMm, turnSense } from './fault.ts';
import type { Asked } from './symptoms.ts';

export interface PitchRead {
  /** Zones across, positive where the print is finer than the lens; without a sign when not known. */
  readonly bands: Estimate;
  /**
   * Viewing pitch to weave with next time, in the print's own inches, for the distance the print was
   * woven for; and the other one that fits while the sign is not known.
   */
  readonly viewingLpi: Estimate;
  readonly orLpi?: number;
}

export interface SkewRead {
  readonly bands: Estimate;
  /** How the print lies turned on the lens, clockwise positive. Turn it back by as much. */
  readonly rad: Estimate;
  /** What that moves one end of the print against the other, across the ribs; 0 or more. */
  readonly endsMm: number;
  readonly signKnown: boolean;
}

export interface CountReading {
  readonly pitch?: PitchRead;
  readonly skew?: SkewRead;
  /** How far the print lies beside its place: right (lying: down) positive. Move it back by as much. */
  readonly offsetMm?: Estimate;
  /** Printed over drawn. */
  readonly scaleAcross?: Estimate;
  readonly scaleAlong?: Estimate;
  /** g as the head's travel tells it, and how much of it is more than the sheet's own. */
  readonly gapMm?: Estimate;
  readonly airMm?: Estimate;
  /** What the lens and the printed dot do not explain of the spread, as a share of the pitch. */
  readonly extraSpread?: Estimate;
  /** Width of the whole spread, and what was to be expected, as shares of the pitch. */
  readonly spread?: Estimate;
  readonly expectedSpread: number;
  /** Printed step of the swaths across the ribs. */
  readonly outOfStepMm?: Estimate;
  /** Counts that would settle a sign that is still open. */
  readonly open: readonly Asked[];
}

type Sign = 1 | -1 | undefined;

/** Signs of the bands across and along (positive: see `phaseTerms`), as far as run and lean tell. */
export const bandSigns = ({
  lean,
  run,
}: Counts): { readonly across: Sign; readonly along: Sign } => {
  const tilt: Sign = lean === 'forth' ? 1 : lean === 'back' ? -1 : undefined;
  if (run === 'with' || run === 'against') {
    const across = run === 'with' ? 1 : -1;
    return { across, along: tilt === undefined ? undefined : ((across * tilt) as Sign) };
  }
  if (run === 'forth' || run === 'back') {
    const along = run === 'forth' ? 1 : -1;
    return { along, across: tilt === undefined ? undefined : ((along * tilt) as Sign) };
  }
  return { across: undefined, along: undefined };
};

/** Fewer bands than this are none: they have no lean and no run that an eye could tell (ours). */
export const LEAST_BANDS = 0.2;

/** Thickness and index of a sheet are seldom known better than this, relative, one sigma (ours). */
const GAP_DOUBT = 0.02;

/** First and last frame are both seen while the lesser is at least this share of the two (ours). */
const GHOST_SEEN = 0.1;

/** Two standard deviations. */
const estimate = (value: number, sigma: number): Estimate => ({ value, plusMinus: 2 * sigma });

/** Throws a RangeError that names the field. */
export const checkCounts = (counts: Counts): void => {
  const lengths = [
    'bandsAcross',
    'bandsAlong',
    'jumpForthMm',
    'jumpBackMm',
    'jumpTakesMm',
  ] as const;
  for (const field of lengths) {
    const value = counts[field];
    if (value !== undefined && !(value >= 0 && Number.isFinite(value)))
      throw new RangeError(`${field}: expected 0 or more, received ${value}`);
  }
  const above: [string, number | undefined][] = [
    ['repeatMm', counts.repeatMm],
    ['lookedFromMm', counts.lookedFromMm],
    ['barAcross.drawnMm', counts.barAcross?.drawnMm],
    ['barAcross.measuredMm', counts.barAcross?.measuredMm],
    ['barAlong.drawnMm', counts.barAlong?.drawnMm],
    ['barAlong.measuredMm', counts.barAlong?.measuredMm],
    ['stripes.heightMm', counts.stripes?.heightMm],
  ];
  for (const [field, value] of above)
    if (value !== undefined && !(value > 0 && Number.isFinite(value)))
      throw new RangeError(`${field}: expected a length above 0 mm, received ${value}`);
};

/** Reads what can be read. Throws a RangeError that names a count that cannot be. */
export const readCounts = (setup: MendSetup, counts: Counts): CountReading => {
  checkCounts(counts);
  const scaleAcross = scaleOf(counts.barAcross);
  const scaleAlong = scaleOf(counts.barAlong);
  const signs = bandSigns(counts);
  const skew = skewOf(setup, counts, signs.along, scaleAcross?.value ?? 1);
  const pitch = pitchOf(setup, counts, signs.across, skew?.rad.value ?? 0);
  const jumps = jumpsOf(setup, counts, scaleAcross?.value ?? 1);
  const expectedSpread = spreadExpected(setup);
  return {
    ...(pitch === undefined ? {} : { pitch }),
    ...(skew === undefined ? {} : { skew }),
    ...(scaleAcross === undefined ? {} : { scaleAcross }),
    ...(scaleAlong === undefined ? {} : { scaleAlong }),
    ...jumps,
    ...spreadOf(setup, counts, expectedSpread, jumps),
    expectedSpread,
    open: openAsks(counts, signs),
  };
};

const scaleOf = (bar: Counts['barAcross']): Estimate | undefined =>
  bar === undefined
    ? undefined
    : estimate(bar.measuredMm / bar.drawnMm, RULER_SIGMA_MM / bar.drawnMm);

const lookedFrom = (setup: MendSetup, counts: Counts): number =>
  counts.lookedFromMm ?? setup.distanceMm;

const skewOf = (
  { sheet, lens, ...setup }: MendSetup,
  counts: Counts,
  sign: Sign,
  scale: number,
): SkewRead | undefined => {
  if (counts.bandsAlong === undefined) return undefined;
  const long = printAlongMm(sheet);
  const reach = 1 + opticalGap(lens) / (counts.lookedFromMm ?? setup.distanceMm);
  const perBand = (sheet.viewingPitchMm * scale) / (long * reach);
  const signKnown = sign !== undefined || counts.bandsAlong < LEAST_BANDS;
  const bands = (sign ?? 1) * counts.bandsAlong;
  const sine = Math.min(1, Math.max(-1, bands * perBand));
  const turned = Math.asin(sine);
  return {
    bands: estimate(bands, COUNT_SIGMA),
    rad: estimate(turnSense(sheet) * turned, (COUNT_SIGMA * perBand) / Math.cos(turned)),
    endsMm: Math.abs(long * Math.tan(turned)),
    signKnown,
  };
};

/**
 * bands = W s ((1 + G / D) cos α / (p_w s) − 1 / p), so the pitch that shows none, through the same
 * driver, is LPI_w cos α − bands / W(in) / (1 + G / D): the scale drops out.
 */
const pitchOf = (
  { sheet, lens, distanceMm }: MendSetup,
  counts: Counts,
  sign: Sign,
  skewRad: number,
): PitchRead | undefined => {
  if (counts.bandsAcross === undefined) return undefined;
  const from = counts.lookedFromMm ?? distanceMm;
  const gap = opticalGap(lens);
  const perBand = MM_PER_INCH / printAcrossMm(sheet) / (1 + gap / from);
  const woven = (MM_PER_INCH / sheet.viewingPitchMm) * Math.cos(skewRad);
  const restated = (lpi: number) =>
    MM_PER_INCH / viewingPitchAt(mm(MM_PER_INCH / lpi), gap, mm(from), mm(distanceMm));
  const bands = (sign ?? 1) * counts.bandsAcross;
  return {
    bands: estimate(bands, COUNT_SIGMA),
    viewingLpi: estimate(restated(woven - bands * perBand), COUNT_SIGMA * perBand),
    ...(sign === undefined && counts.bandsAcross >= LEAST_BANDS
      ? { orLpi: restated(woven + bands * perBand) }
      : {}),
  };
};

/** Place, gap and swaths, from where the head is when the print's middle jumps. */
const jumpsOf = (
  setup: MendSetup,
  counts: Counts,
  scale: number,
): Pick<CountReading, 'offsetMm' | 'gapMm' | 'airMm' | 'outOfStepMm'> => {
  const { lens, sheet } = setup;
  const from = lookedFrom(setup, counts);
  const printed = sheet.viewingPitchMm * scale;
  const view = viewThrough(lens);
  /** How far beside the rib's middle the eye lands through the lens alone, to the other side. */
  const beside = (headMm: number) => -view.beside(headMm / from, 0);
  const { jumpForthMm: forth, jumpBackMm: back, stripes } = counts;
  const whole =
    counts.repeatMm ?? (forth === undefined || back === undefined ? undefined : forth + back);
  let air = 0;
  let gap: Pick<CountReading, 'gapMm' | 'airMm'> = {};
  if (whole !== undefined && whole > 0) {
    // The two ends of the zone lie p apart on the print: L(forth) + L(back) + air (forth + back) / D.
    const [f, b] =
      forth !== undefined && back !== undefined ? [forth, back] : [whole / 2, whole / 2];
    air = ((printed - beside(f) - beside(b)) * from) / (f + b);
    const own = opticalGap(lens);
    const headSigma = ((own + air) * Math.SQRT2 * HEAD_SIGMA_MM) / whole;
    gap = {
      gapMm: estimate(own + air, headSigma),
      airMm: estimate(air, Math.hypot(headSigma, GAP_DOUBT * own)),
    };
  }
  const counted = air > 0 ? air : 0;
  const reach = (headMm: number) => beside(headMm) + (counted * headMm) / from;
  const perHead = (opticalGap(lens) + counted) / from;
  let offset: number | undefined;
  let sigma = HEAD_SIGMA_MM * perHead;
  if (forth !== undefined && back !== undefined) {
    offset = (reach(back) - reach(forth)) / 2;
    sigma /= Math.SQRT2;
  } else if (forth !== undefined) offset = printed / 2 - reach(forth);
  else if (back !== undefined) offset = reach(back) - printed / 2;
  return {
    ...gap,
    ...(offset === undefined
      ? {}
      : { offsetMm: estimate(offset - printed * Math.round(offset / printed), sigma) }),
    ...(stripes === undefined
      ? {}
      : { outOfStepMm: estimate(stripes.apartMm * perHead, Math.SQRT2 * HEAD_SIGMA_MM * perHead) }),
  };
};

/** Even strip that spreads as far as lens and dot together: widths add as squares. */
export const spreadExpected = ({ lens, sheet, distanceMm }: MendSetup): number => {
  const dot = dotSpread(MM_PER_INCH / sheet.acrossDpi, sheet.viewingPitchMm, sheet.columns);
  try {
    // Where the picture jumps the eye looks through the rib at the edge of its cone.
    const offsetMm = mm((lens.pitchMm * distanceMm) / opticalGap(lens) / 2);
    const seen = spot(lens, { offsetMm, distanceMm: mm(distanceMm) }, 32);
    return Math.hypot(seen === undefined ? 1 : evenWidth(seen.rmsMm) / lens.pitchMm, dot);
  } catch (error) {
    if (error instanceof RangeError) return dot;
    throw error;
  }
};

const spreadOf = (
  setup: MendSetup,
  counts: Counts,
  expected: number,
  jumps: ReturnType<typeof jumpsOf>,
): Pick<CountReading, 'spread' | 'extraSpread'> => {
  if (counts.jumpTakesMm === undefined) return {};
  const gap = jumps.gapMm?.value ?? opticalGap(setup.lens);
  const zone = (setup.sheet.viewingPitchMm * lookedFrom(setup, counts)) / gap;
  const share = counts.jumpTakesMm / zone / (1 - 2 * GHOST_SEEN);
  const sigma = (Math.SQRT2 * HEAD_SIGMA_MM) / zone / (1 - 2 * GHOST_SEEN);
  const air = Math.max(0, jumps.airMm?.value ?? 0) / opticalGap(setup.lens);
  const extra = Math.sqrt(Math.max(0, share * share - expected * expected - air * air));
  return {
    spread: estimate(share, sigma),
    extraSpread: estimate(extra, (sigma * share) / Math.max(extra, sigma)),
  };
};

const openAsks = (counts: Counts, signs: ReturnType<typeof bandSigns>): Asked[] => {
  const across = (counts.bandsAcross ?? 0) >= LEAST_BANDS && signs.across === undefined;
  const along = (counts.bandsAlong ?? 0) >= LEAST_BANDS && signs.along === undefined;
  const asks: Asked[] = [];
  if ((across || along) && counts.run === undefined) asks.push('run');
  if (
    ((across && along) || (counts.run !== undefined && (across || along))) &&
    counts.lean === undefined
  )
    asks.push('lean');
  return asks;
};
