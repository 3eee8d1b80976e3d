/**
 * From counts to numbers: what bands, jumps and the ruler say about pitch, skew, place, scale, gap and spread, each
 * with its uncertainty. All signs follow from relation 1 (see `phaseTerms`): too fine a print has bands that run with
 * the head; one turned clockwise has bands that sink as the head goes right.
 */
import { gapAhead, viewingPitchAt } from '../lens/traced.ts';
import { MM_PER_INCH, mm } from '../units/units.ts';
import type { BandCount } from './check-counts.ts';
import { beyondPrint, checkCounts, stripesOf } from './check-counts.ts';
import type { Bar, Counts, Estimate } from './counts.ts';
import { COUNT_SIGMA, HEAD_SIGMA_MM, RULER_SIGMA_MM, STRIP_RULER_SIGMA_MM } from './counts.ts';
import type { MendSetup } from './fault.ts';
import { printAcrossMm, printAlongMm, turnSense } from './fault.ts';
import type { BlurRead } from './blur-fit.ts';
import { fitBlur } from './blur-fit.ts';
import type { JumpModel } from './jump-model.ts';
import { jumpModelOf } from './jump-model.ts';
import type { Asked } from './symptoms.ts';

export interface PitchRead {
  /** Zones across, positive where the print is finer than the lens; without a sign when that is not known. */
  readonly bands: Estimate;
  /**
   * Woven pitch for the next print, in the print’s own inches, for the distance that it was woven for; and the other
   * pitch that fits while the sign is not known.
   */
  readonly viewingLpi: Estimate;
  readonly orLpi?: number;
}

export interface SkewRead {
  readonly bands: Estimate;
  /** Turn of the print on the lens, clockwise positive. Turn it back by as much. */
  readonly rad: Estimate;
  /** How far that moves one end of the print across the ribs against the other; at least 0. */
  readonly endsMm: number;
  readonly signKnown: boolean;
}

export interface CountReading {
  readonly pitch?: PitchRead;
  readonly skew?: SkewRead;
  /** How far the print lies out of place: right (lying: down) positive. Move it back by as much. */
  readonly offsetMm?: Estimate;
  /** Printed / drawn; where the strip of the woven pitch was measured, over what that came out at. */
  readonly scaleAcross?: Estimate;
  readonly scaleAlong?: Estimate;
  /** Air under the lens and ink beyond the plan, as far as the jumps tell them apart. */
  readonly blur?: BlurRead;
  /** Printed step of the swaths across the ribs. */
  readonly outOfStepMm?: Estimate;
  /** Counts that would settle an open sign. */
  readonly open: readonly Asked[];
  /** Counts that are too large for this print and were left out. */
  readonly beyond: readonly BandCount[];
}

type Sign = 1 | -1 | undefined;

/** Signs of the bands across and along (see `phaseTerms`), as far as run and lean give them. */
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

/** Fewer bands than this count as none: their lean and run cannot be seen (our own value). */
export const LEAST_BANDS = 0.2;

/** @param sigma standard deviation. */
const estimate = (value: number, sigma: number): Estimate => ({ value, plusMinus: 2 * sigma });

/** Reads what the counts allow. @throws RangeError that names an impossible count. */
export const readCounts = (setup: MendSetup, given: Counts): CountReading => {
  checkCounts(given);
  const beyond = beyondPrint(setup, given);
  const counts: Counts = Object.fromEntries(
    Object.entries(given).filter(([field]) => !(beyond as string[]).includes(field)),
  );
  const scaleAcross = scaleOf(counts.barAcross, setup.stripBars?.across);
  const scaleAlong = scaleOf(counts.barAlong, setup.stripBars?.along);
  const signs = bandSigns(counts);
  const skew = skewOf(setup, counts, signs.along, scaleAcross?.value ?? 1);
  const printed = setup.sheet.viewingPitchMm * (scaleAcross?.value ?? 1);
  const { jumpForthMm, jumpBackMm, repeatMm, jumpTakesMm, stripes } = counts;
  const moved = [jumpForthMm, jumpBackMm, repeatMm, jumpTakesMm, stripes];
  const model = moved.some((one) => one !== undefined)
    ? jumpModelOf(setup, lookedFrom(setup, counts), setup.sheet.viewingPitchMm)
    : undefined;
  const blur = model === undefined ? undefined : fitBlur(setup, counts, model);
  const pitch = pitchOf(setup, counts, signs.across, skew?.rad.value ?? 0, surely(blur?.airMm));
  return {
    ...(pitch === undefined ? {} : { pitch }),
    ...(skew === undefined ? {} : { skew }),
    ...(scaleAcross === undefined ? {} : { scaleAcross }),
    ...(scaleAlong === undefined ? {} : { scaleAlong }),
    ...(blur === undefined ? {} : { blur }),
    ...(model === undefined
      ? {}
      : placesOf(counts, model, { pitchMm: printed, offsetMm: setup.sheet.offsetMm }, blur)),
    open: openAsks(counts, signs),
    beyond,
  };
};

const scaleOf = (bar: Bar | undefined, strip: Bar | undefined): Estimate | undefined => {
  if (bar === undefined) return undefined;
  const scale = bar.measuredMm / bar.drawnMm;
  const doubt = RULER_SIGMA_MM / bar.drawnMm;
  // A stretch that strip and print share is in the pitch already and makes no bands.
  return strip === undefined
    ? estimate(scale, doubt)
    : estimate(
        (scale * strip.drawnMm) / strip.measuredMm,
        Math.hypot(doubt, STRIP_RULER_SIGMA_MM / strip.drawnMm),
      );
};

const lookedFrom = (setup: MendSetup, counts: Counts): number =>
  counts.lookedFromMm ?? setup.distanceMm;

const skewOf = (
  setup: MendSetup,
  counts: Counts,
  sign: Sign,
  scale: number,
): SkewRead | undefined => {
  if (counts.bandsAlong === undefined) return undefined;
  const signKnown = sign !== undefined || counts.bandsAlong < LEAST_BANDS;
  const bands = estimate((sign ?? 1) * counts.bandsAlong, COUNT_SIGMA);
  return { ...skewFrom(setup, bands, lookedFrom(setup, counts), scale), signKnown };
};

/** bands = H (1 + g₀ / D) sin α / (p_w s), solved for α. */
export const skewFrom = (
  { sheet, lens }: MendSetup,
  bands: Estimate,
  fromMm: number,
  scale = 1,
): Omit<SkewRead, 'signKnown'> => {
  const long = printAlongMm(sheet);
  const perBand = (sheet.viewingPitchMm * scale) / (long * (1 + gapAhead(lens) / fromMm));
  const turned = Math.asin(Math.min(1, Math.max(-1, bands.value * perBand)));
  return {
    bands,
    rad: {
      value: turnSense(sheet) * turned,
      plusMinus: (bands.plusMinus * perBand) / Math.cos(turned),
    },
    endsMm: Math.abs(long * Math.tan(turned)),
  };
};

const pitchOf = (
  setup: MendSetup,
  counts: Counts,
  sign: Sign,
  skewRad: number,
  airMm: number,
): PitchRead | undefined => {
  const { bandsAcross } = counts;
  if (bandsAcross === undefined) return undefined;
  const from = lookedFrom(setup, counts);
  // Air under the lens makes bands of its own, W air / (D p): they vanish with it and are not from the pitch.
  const { sheet } = setup;
  const ofAir = (printAcrossMm(sheet) * airMm) / (from * sheet.viewingPitchMm);
  const read = (bands: number) =>
    pitchFrom(setup, estimate(bands - ofAir, COUNT_SIGMA), from, skewRad);
  return {
    ...read((sign ?? 1) * bandsAcross),
    ...(sign === undefined && bandsAcross >= LEAST_BANDS
      ? { orLpi: read(-bandsAcross).viewingLpi.value }
      : {}),
  };
};

/**
 * bands = W s ((1 + g₀ / D) cos α / (p_w s) − 1 / p). The pitch without bands, through the same driver, is LPI_w cos α
 * − bands / W(in) / (1 + g₀ / D): the scale drops out.
 */
export const pitchFrom = (
  { sheet, lens, distanceMm }: MendSetup,
  bands: Estimate,
  fromMm: number,
  skewRad: number,
): Omit<PitchRead, 'orLpi'> => {
  const perBand = MM_PER_INCH / printAcrossMm(sheet) / (1 + gapAhead(lens) / fromMm);
  const seen = (MM_PER_INCH / sheet.viewingPitchMm) * Math.cos(skewRad) - bands.value * perBand;
  const read = mm(MM_PER_INCH / seen);
  const viewingLpi = MM_PER_INCH / viewingPitchAt(lens, read, mm(fromMm), mm(distanceMm));
  return { bands, viewingLpi: { value: viewingLpi, plusMinus: bands.plusMinus * perBand } };
};

/** Places to try over one pitch. */
const PLACES = 48;

/** The place of the print that explains the jumps best. */
const placeOf = (
  { jumpForthMm: forth, jumpBackMm: back }: Counts,
  model: JumpModel,
  printed: number,
  air: number,
  ink: number,
): number | undefined => {
  let [least, best] = [Infinity, undefined as number | undefined];
  const off = (offset: number): number => {
    const there = model.jump(air, ink, offset)?.atMm;
    const behind = model.jump(air, ink, -offset)?.atMm;
    let squares = 0;
    if (forth !== undefined) squares += there === undefined ? Infinity : (there - forth) ** 2;
    if (back !== undefined) squares += behind === undefined ? Infinity : (behind - back) ** 2;
    return squares;
  };
  const step = printed / PLACES;
  for (let i = -PLACES / 2; i < PLACES / 2; i += 1) {
    const squares = off(i * step);
    if (squares < least) [least, best] = [squares, i * step];
  }
  // Too blurred for a jump in the model, or for one like these: use the mean landing.
  const { length } = [forth, back].filter((one) => one !== undefined);
  if (best === undefined || least > length * (5 * HEAD_SIGMA_MM) ** 2)
    return forth === undefined || back === undefined
      ? undefined
      : (model.beside(back, air) - model.beside(forth, air)) / 2;
  // The minimum of the parabola through the best place and its neighbours.
  const [before, after] = [off(best - step), off(best + step)];
  const bend = before - 2 * least + after;
  const aside = Number.isFinite(bend) && bend > 0 ? (before - after) / (2 * bend) : 0;
  return best + Math.min(0.5, Math.max(-0.5, aside)) * step;
};

/** The place of the print, and the step of its swaths, from the head positions at the jumps. */
const placesOf = (
  counts: Counts,
  model: JumpModel,
  print: { readonly pitchMm: number; readonly offsetMm: number },
  blur: BlurRead | undefined,
): Pick<CountReading, 'offsetMm' | 'outOfStepMm'> => {
  const air = surely(blur?.airMm);
  const perHead = model.beside(10, air) / 10;
  const stripes = stripesOf(counts);
  const asked = counts.jumpForthMm !== undefined || counts.jumpBackMm !== undefined;
  const lies = asked
    ? placeOf(counts, model, print.pitchMm, air, surely(blur?.extraSpread))
    : undefined;
  // The weave itself may have put the views to one side.
  const beside = lies === undefined ? undefined : (lies - print.offsetMm) / print.pitchMm;
  const offset =
    beside === undefined ? undefined : (beside - Math.floor(beside + 0.5)) * print.pitchMm;
  const both = counts.jumpForthMm !== undefined && counts.jumpBackMm !== undefined;
  const sigma = (HEAD_SIGMA_MM * perHead) / (both ? Math.SQRT2 : 1);
  return {
    ...(offset === undefined ? {} : { offsetMm: estimate(offset, sigma) }),
    ...(stripes === undefined
      ? {}
      : { outOfStepMm: estimate(stripes.apartMm * perHead, Math.SQRT2 * HEAD_SIGMA_MM * perHead) }),
  };
};

/** The value if it exceeds its uncertainty, otherwise 0. */
const surely = (read: Estimate | undefined): number =>
  read !== undefined && read.value > read.plusMinus ? read.value : 0;

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
