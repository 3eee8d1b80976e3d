/**
 * Ranks the causes by what was seen and counted so far, with Bayes’s rule: the likelihood of the counts with the
 * fault, over all usual sizes of it, against the likelihood without it. A missing count has no effect. Causes that
 * share a sign (pitch and the driver’s scale both make bands; ink and air both blur) are weighed together.
 */
import type { Counts, Estimate } from './counts.ts';
import type { MendSetup } from './fault.ts';
import { lensPitchMm, printAcrossMm, printAlongMm } from './fault.ts';
import type { CountReading } from './read-counts.ts';
import { readCounts } from './read-counts.ts';
import type { Asked, Cause, SymptomId } from './symptoms.ts';
import { SYMPTOMS } from './symptoms.ts';
import { tracedGap } from '../lens/traced.ts';

export interface RankedCause {
  readonly cause: Cause;
  /** 0 … 1: how certain it is that this is one of the faults. */
  readonly confidence: number;
  /** Zones of slide or blur that it uses over the print; left out while not known. */
  readonly zones?: number;
  /** Missing counts that would help to decide on it. */
  readonly asks: readonly Asked[];
}

export interface Seeing {
  /** The symptom cards that look like the print; may be empty. */
  readonly chosen: readonly SymptomId[];
  readonly counts: Counts;
  /** What the job knows of its frames: steps beyond the depth budget, and whether neighbours are all unlike. */
  readonly tooDeep?: boolean;
  readonly unlikeFrames?: boolean;
}

/** How often a failed print has each cause, before anything is seen (our own values, no source). */
const PRIOR: Readonly<Record<Cause, number>> = {
  pitch: 0.25,
  skew: 0.25,
  offset: 0.2,
  scale: 0.1,
  order: 0.08,
  ribs: 0.04,
  spread: 0.14,
  gap: 0.12,
  bubble: 0.05,
  resampled: 0.05,
  'out-of-step': 0.05,
  depth: 0.08,
  flip: 0.05,
};

/** Counts that help to decide on a cause, the most useful first. */
const ASKS: Readonly<Record<Cause, readonly Asked[]>> = {
  pitch: ['bandsAcross', 'run', 'lean', 'barAcross'],
  scale: ['barAcross', 'bandsAcross', 'run'],
  skew: ['bandsAlong', 'run', 'lean'],
  offset: ['jumpForthMm', 'jumpBackMm'],
  order: ['order'],
  ribs: ['changes'],
  spread: ['jumpTakesMm', 'jumpForthMm', 'jumpBackMm'],
  gap: ['jumpForthMm', 'jumpBackMm', 'jumpTakesMm'],
  bubble: ['patch'],
  resampled: ['standingStripes', 'hardEdges'],
  'out-of-step': ['stripes'],
  depth: ['doubledByDepth'],
  flip: ['clearBetween'],
};

/** Usual limits of wrong pitches, scales and skews (our own values, no source). */
const PITCH_RANGE = 0.012;
const SCALE_RANGE = 0.04;
const SKEW_RANGE = 0.021;
/** Standard deviations of bands, place (zones) and scale (share) that are no fault (our own values). */
const QUIET_BANDS = 0.12;
const QUIET_PLACE = 0.03;
const QUIET_SCALE = 0.0007;
/** A yes-or-no answer is wrong once in so many (our own value). */
const PLAIN = 150;

const sigmaOf = ({ plusMinus }: Estimate): number => plusMinus / 2;
const normal = (x: number, sigma: number): number =>
  Math.exp(-0.5 * (x / sigma) ** 2) / (sigma * Math.sqrt(2 * Math.PI)) + 1e-12;
/** Uniform over a range, with soft ends. */
const even = (x: number, reach: number): number =>
  (Math.abs(x) <= reach ? 1 : Math.exp(-(((Math.abs(x) - reach) / (0.1 * reach)) ** 2))) /
  (2 * reach);

type Odds = Record<Cause, number>;

/** Prior odds, adjusted by the chosen cards and by what the job knows. */
const priorOdds = ({ chosen, tooDeep, unlikeFrames }: Seeing): Odds => {
  const odds = Object.fromEntries(
    Object.entries(PRIOR).map(([cause, p]) => [cause, p / (1 - p)]),
  ) as Odds;
  const symptoms = SYMPTOMS.filter(({ id }) => chosen.includes(id));
  if (symptoms.length > 0)
    for (const cause of Object.keys(odds) as Cause[]) {
      const places = symptoms.map(({ causes }) => causes.indexOf(cause)).filter((at) => at >= 0);
      odds[cause] *= places.length === 0 ? 0.4 : ([12, 4, 2][Math.min(...places)] ?? 2);
    }
  if (tooDeep !== undefined) odds.depth *= tooDeep ? 5 : 0.3;
  if (unlikeFrames !== undefined) odds.flip *= unlikeFrames ? 5 : 0.2;
  return odds;
};

/** Posterior odds of two causes from the likelihoods of none, the first, the second, and both. */
const weighPair = (
  odds: Odds,
  first: Cause,
  second: Cause,
  likely: readonly [none: number, first: number, second: number, both: number],
): void => {
  const [a, b] = [odds[first], odds[second]];
  const [none, one, two, both] = [likely[0], a * likely[1], b * likely[2], a * b * likely[3]];
  odds[first] = (one + both) / (none + two);
  odds[second] = (two + both) / (none + one);
};

/** Bands across and the ruler: a wrong pitch, a driver that scales, or both. */
const weighPitch = (odds: Odds, setup: MendSetup, reading: CountReading): void => {
  const { pitch, scaleAcross } = reading;
  if (pitch === undefined && scaleAcross === undefined) return;
  const ribs = printAcrossMm(setup.sheet) / lensPitchMm(setup);
  const bands = pitch?.bands.value ?? 0;
  const bandSigma = pitch === undefined ? 0 : Math.hypot(sigmaOf(pitch.bands), QUIET_BANDS);
  const stretch = scaleAcross === undefined ? 0 : scaleAcross.value - 1;
  const ruler = scaleAcross === undefined ? 0 : sigmaOf(scaleAcross);
  const still = scaleAcross === undefined ? 1 : normal(stretch, Math.hypot(ruler, QUIET_SCALE));
  const signs = pitch?.orLpi === undefined ? [1] : [1, -1];
  const sum = [0, 0, 0, 0] as [number, number, number, number];
  for (const sign of signs) {
    const b = sign * bands;
    const anyBands = pitch === undefined ? 1 : even(b, PITCH_RANGE * ribs);
    // A page drawn s times too large shows ribs × (1 − s) bands.
    const implied = -b / ribs;
    let byScale: number;
    if (pitch === undefined) byScale = even(stretch, SCALE_RANGE);
    else if (scaleAcross === undefined) byScale = even(implied, SCALE_RANGE) / ribs;
    else
      byScale =
        (even(implied, SCALE_RANGE) / ribs) *
        normal(stretch - implied, Math.hypot(ruler, bandSigma / ribs));
    const both =
      pitch === undefined || scaleAcross === undefined
        ? anyBands
        : even(b + stretch * ribs, PITCH_RANGE * ribs) * even(stretch, SCALE_RANGE);
    sum[0] += pitch === undefined ? still : normal(b, bandSigma) * still;
    sum[1] += anyBands * still;
    sum[2] += byScale;
    sum[3] += both;
  }
  weighPair(odds, 'pitch', 'scale', sum);
};

const weighSkew = (odds: Odds, setup: MendSetup, { skew }: CountReading): void => {
  if (skew === undefined) return;
  const most = (printAlongMm(setup.sheet) * SKEW_RANGE) / setup.sheet.viewingPitchMm;
  const { value } = skew.bands;
  odds.skew *= even(value, most) / normal(value, Math.hypot(sigmaOf(skew.bands), QUIET_BANDS));
};

const weighPlace = (odds: Odds, setup: MendSetup, reading: CountReading): void => {
  const { offsetMm, outOfStepMm } = reading;
  if (offsetMm === undefined) return;
  const pitch = setup.sheet.viewingPitchMm;
  const place = offsetMm.value / pitch;
  const sigma = Math.hypot(sigmaOf(offsetMm) / pitch, QUIET_PLACE);
  // Where swaths are out of step, the middle may lie on a displaced one, either way.
  const step = outOfStepMm === undefined ? 0 : outOfStepMm.value / pitch;
  const doubt = outOfStepMm === undefined ? 0 : sigmaOf(outOfStepMm) / pitch;
  const aside = step === 0 ? [0] : [0, -step, step];
  const still = aside.map((shift) =>
    normal(place - shift, shift === 0 ? sigma : Math.hypot(sigma, doubt)),
  );
  odds.offset *= even(place, 0.5) / (still.reduce((sum, one) => sum + one, 0) / still.length);
};

/** Head travel and length of the jump: ink only blurs; air also shortens the travel. */
const weighBlur = (
  odds: Odds,
  { blur }: CountReading,
  { standingStripes, hardEdges }: Counts,
): void => {
  if (blur === undefined) return;
  const [none, air, ink, both] = blur.likely;
  // A driver that resamples blurs like ink: where its signs are seen, blur needs no other cause.
  const redrawn = standingStripes === true || hardEdges === true;
  weighPair(
    odds,
    'gap',
    'spread',
    redrawn ? [Math.max(none, ink), Math.max(air, both), ink, both] : blur.likely,
  );
};

const weighPlain = (odds: Odds, counts: Counts): void => {
  const tell = (cause: Cause, seen: boolean | undefined) => {
    if (seen !== undefined) odds[cause] *= seen ? PLAIN : 1 / PLAIN;
  };
  const { order, changes, patch, stripes, standingStripes, hardEdges } = counts;
  tell('order', order === undefined ? undefined : order === 'backwards');
  tell('ribs', changes === undefined ? undefined : changes === 'never');
  tell('bubble', patch === undefined ? undefined : patch !== 'none');
  tell('out-of-step', stripes === undefined ? undefined : stripes !== 'none');
  tell('depth', counts.doubledByDepth);
  // Unlike frames stay clear between their changes; a blurred print never is.
  tell('flip', counts.clearBetween);
  if (standingStripes !== undefined || hardEdges !== undefined)
    tell('resampled', standingStripes === true || hardEdges === true);
};

/** Every cause, the likeliest first; among equally certain ones, by the zones they use. */
export const rankCauses = (setup: MendSetup, seeing: Seeing): RankedCause[] => {
  const reading = readCounts(setup, seeing.counts);
  const odds = priorOdds(seeing);
  weighPlain(odds, seeing.counts);
  weighPitch(odds, setup, reading);
  weighSkew(odds, setup, reading);
  weighPlace(odds, setup, reading);
  weighBlur(odds, reading, seeing.counts);
  const spent = zonesSpent(setup, reading);
  const ranked = (Object.keys(odds) as Cause[]).map((cause): RankedCause => {
    const zones = spent[cause];
    return {
      cause,
      confidence: odds[cause] / (1 + odds[cause]),
      ...(zones === undefined ? {} : { zones }),
      asks: ASKS[cause].filter((ask) => seeing.counts[ask] === undefined),
    };
  });
  const place = ({ cause, zones = 0 }: RankedCause) =>
    Math.min(Math.log(odds[cause]), SURE) + 1e-3 * Math.min(zones, 100);
  return ranked.sort((a, b) => place(b) - place(a));
};

/** Log odds above which all causes count as equally certain. */
const SURE = 5;

const zonesSpent = (setup: MendSetup, reading: CountReading): Partial<Record<Cause, number>> => {
  const pitch = setup.sheet.viewingPitchMm;
  const ribs = printAcrossMm(setup.sheet) / lensPitchMm(setup);
  const { offsetMm, scaleAcross, blur, outOfStepMm, skew } = reading;
  const size = (estimate: Estimate | undefined, per: number) =>
    estimate === undefined ? undefined : Math.abs(estimate.value) / per;
  const byScale = scaleAcross === undefined ? 0 : (1 - scaleAcross.value) * ribs;
  const spent = {
    pitch: reading.pitch === undefined ? undefined : Math.abs(reading.pitch.bands.value - byScale),
    skew: size(skew?.bands, 1),
    offset: size(offsetMm, pitch),
    scale: scaleAcross === undefined ? undefined : Math.abs(byScale),
    gap: size(blur?.airMm, tracedGap(setup.lens)),
    spread: size(blur?.extraSpread, 1),
    'out-of-step': size(outOfStepMm, pitch),
  };
  return Object.fromEntries(Object.entries(spent).filter(([, zones]) => zones !== undefined));
};
