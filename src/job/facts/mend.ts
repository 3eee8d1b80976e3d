/** The print on the table in the terms of core/mend: how it was woven, what is seen, and what that tells. */
import type { Counts } from '../../core/mend/counts.ts';
import type { Faults, MendSetup, StripBars } from '../../core/mend/fault.ts';
import { noFaults } from '../../core/mend/fault.ts';
import type { RankedCause } from '../../core/mend/rank.ts';
import { rankCauses } from '../../core/mend/rank.ts';
import type { CountReading } from '../../core/mend/read-counts.ts';
import { readCounts } from '../../core/mend/read-counts.ts';
import type { SymptomId } from '../../core/mend/symptoms.ts';
import { SYMPTOMS } from '../../core/mend/symptoms.ts';
import { lensPitchFor, tracedGap } from '../../core/lens/traced.ts';
import { MM_PER_INCH, dpi, mm, wholeDots } from '../../core/units/units.ts';
import type { Job } from '../schema/job.ts';
import { lensOf, movedZones, pitchStanding, viewingPitchOf } from './sheet.ts';
import type { ChangeOf } from '../schema/changed.ts';
import { changed } from '../schema/changed.ts';
import type { Printed, Seeing, SeenCounts } from '../schema/trial.ts';
import { gridOf } from './printer.ts';

/** How the job would be woven now. */
export const printedNow = (job: Job): Printed => ({
  viewingPitchMm: viewingPitchOf(job),
  standing: pitchStanding(job),
  lens: job.lens,
  distanceMm: job.print.viewingDistanceMm,
  widthMm: job.print.widthMm,
  heightMm: job.print.heightMm,
  acrossDpi: gridOf(job).acrossDpi,
  alongDpi: gridOf(job).alongDpi,
  ribs: job.ribs,
  viewSlots: job.viewSlots,
  columns: job.columns,
  ...(movedZones(job) === 0 ? {} : { movedZones: movedZones(job) }),
  ...(job.provedPitch?.bars === undefined ? {} : { provedBars: job.provedPitch.bars }),
});

export const setupOf = (printed: Printed): MendSetup => {
  const upright = printed.ribs === 'upright';
  const dots = (lengthMm: number, density: number) => wholeDots(mm(lengthMm), dpi(density));
  const { acrossDpi, alongDpi } = printed;
  const lens = lensOf(printed);
  return {
    lens,
    sheet: {
      widthDots: dots(printed.widthMm, upright ? acrossDpi : alongDpi),
      heightDots: dots(printed.heightMm, upright ? alongDpi : acrossDpi),
      acrossDpi,
      alongDpi,
      ribs: printed.ribs,
      viewingPitchMm: printed.viewingPitchMm,
      lensPitchMm: lensPitchFor(lens, mm(printed.viewingPitchMm), mm(printed.distanceMm)),
      offsetMm: -(printed.movedZones ?? 0) * printed.viewingPitchMm + 0,
      viewSlots: printed.viewSlots,
      columns: printed.columns,
    },
    distanceMm: printed.distanceMm,
    ...(printed.provedBars === undefined
      ? {}
      : { stripBars: changed(printed.provedBars, {}) as StripBars }),
  };
};

/** What was seen of the print so far. Before anything was seen: an empty record of the print as woven now. */
export const seeingOf = (job: Job): Seeing =>
  job.seeing ?? { chosen: [], counts: {}, printed: printedNow(job) };

/** Whether the job has changed since the print was woven: the print is read by its own settings. */
export const changedSince = (job: Job, { printed }: Seeing): boolean =>
  JSON.stringify(settingsOf(printed)) !== JSON.stringify(settingsOf(printedNow(job)));

const settingsOf = (printed: Printed) => {
  const { lens } = printed;
  return [
    ...[lens.pitchMm, lens.thicknessMm, lens.index, lens.radiusMm ?? 0],
    ...[printed.viewingPitchMm, printed.distanceMm, printed.widthMm, printed.heightMm],
    ...[printed.acrossDpi, printed.alongDpi, printed.ribs, printed.viewSlots],
    printed.movedZones ?? 0,
  ];
};

export const chosenOf = ({ chosen }: Seeing): SymptomId[] =>
  SYMPTOMS.map(({ id }) => id).filter((id) => chosen.includes(id));

/** Without fields that are undefined. */
export const countsOf = ({ counts }: Seeing): Counts => changed(counts, {}) as Counts;

/** Across the ribs, as a wrong pitch shows; along them, as a print that lies askew does. */
const bandsOf: Partial<Record<SymptomId, 'bandsAcross' | 'bandsAlong'>> = {
  'too-coarse': 'bandsAcross',
  'too-fine': 'bandsAcross',
  'skewed-left': 'bandsAlong',
  'skewed-right': 'bandsAlong',
};

/** The field that the one count of bands belongs into, by the pictures that were chosen; undefined where it is there. */
export const countedOtherWay = (seeing: Seeing): 'bandsAcross' | 'bandsAlong' | undefined => {
  const { bandsAcross = 0, bandsAlong = 0 } = countsOf(seeing);
  const wanted = new Set(chosenOf(seeing).map((id) => bandsOf[id]));
  if (wanted.size !== 1 || bandsAcross > 0 === bandsAlong > 0) return undefined;
  const [field] = wanted;
  return field === (bandsAcross > 0 ? 'bandsAcross' : 'bandsAlong') ? undefined : field;
};

/** Undefined forgets a count. */
export const setSeeing = (
  job: Job,
  change: {
    readonly chosen?: readonly string[];
    readonly counts?: ChangeOf<SeenCounts>;
  },
): Job => {
  const before = seeingOf(job);
  const counts = changed(before.counts, change.counts ?? {});
  const chosen = [...(change.chosen ?? before.chosen)];
  if (chosen.length === 0 && Object.keys(counts).length === 0) return forgetSeeing(job);
  return { ...job, seeing: { ...before, chosen, counts } };
};

export const forgetSeeing = (job: Job): Job => {
  const { seeing: _seeing, ...rest } = job;
  return rest;
};

/** What the counts say. */
export interface Diagnosis {
  readonly setup: MendSetup;
  readonly counts: Counts;
  readonly reading: CountReading;
  /** All causes, the likeliest first. */
  readonly ranked: readonly RankedCause[];
  /** Those that the counts make likely. */
  readonly found: readonly RankedCause[];
}

/** A cause counts as found from this confidence on. */
const LIKELY = 0.5;

export const diagnose = (
  seeing: Seeing,
  known: { readonly tooDeep?: boolean; readonly unlikeFrames?: boolean } = {},
): Diagnosis => {
  const setup = setupOf(seeing.printed);
  const counts = countsOf(seeing);
  const ranked = rankCauses(setup, { chosen: chosenOf(seeing), counts, ...known });
  return {
    setup,
    counts,
    reading: readCounts(setup, counts),
    ranked,
    found: ranked.filter(({ confidence }) => confidence >= LIKELY),
  };
};

/** The faults of the print on the table, as far as the counts tell, to be drawn. */
export const believedFaults = ({ setup, counts, reading, found }: Diagnosis): Faults => {
  const is = (cause: RankedCause['cause']) => found.some((one) => one.cause === cause);
  const { pitch, skew, offsetMm, scaleAcross, scaleAlong, blur, outOfStepMm } = reading;
  const { patch, stripes } = counts;
  const wovenLpi = MM_PER_INCH / setup.sheet.viewingPitchMm;
  return {
    ...noFaults,
    // The pitch that was read already contains the driver's scale.
    pitchScale:
      pitch === undefined || !(is('pitch') || is('scale'))
        ? 1
        : pitch.viewingLpi.value / wovenLpi / (is('scale') ? (scaleAcross?.value ?? 1) : 1),
    skewRad: is('skew') ? (skew?.rad.value ?? 0) : 0,
    offsetMm: is('offset') ? (offsetMm?.value ?? 0) : 0,
    driverScaleAcross: is('scale') ? (scaleAcross?.value ?? 1) : 1,
    driverScaleAlong: is('scale') ? (scaleAlong?.value ?? scaleAcross?.value ?? 1) : 1,
    reversed: counts.order === 'backwards',
    ribsCrossed: counts.changes === 'never',
    extraSpread: is('spread') ? (blur?.extraSpread.value ?? 0.3) : 0,
    gapMm: is('gap') ? (blur?.airMm.value ?? 0) : 0,
    ...(patch === undefined || patch === 'none' ? {} : { bubble: bubbleOf(setup, patch) }),
    ...(stripes === undefined || stripes === 'none' || outOfStepMm === undefined
      ? {}
      : { outOfStepMm: outOfStepMm.value, swathMm: stripes.heightMm }),
    ...(counts.standingStripes === true ? { resampledDpi: setup.sheet.acrossDpi * 0.47 } : {}),
    sharpened: counts.hardEdges === true ? 1 : 0,
    deeper: is('depth') ? 3 : 1,
    flip: false,
  };
};

const bubbleOf = (
  { sheet, lens }: MendSetup,
  patch: Exclude<NonNullable<Counts['patch']>, 'none'>,
): NonNullable<Faults['bubble']> => {
  const upright = sheet.ribs === 'upright';
  const [across, along] = upright
    ? [sheet.widthDots, sheet.heightDots]
    : [sheet.heightDots, sheet.widthDots];
  const acrossMm = (across * MM_PER_INCH) / sheet.acrossDpi;
  return {
    acrossMm: patch.across * acrossMm,
    alongMm: (patch.along * along * MM_PER_INCH) / sheet.alongDpi,
    radiusMm: (patch.width * acrossMm) / 2,
    gapMm: 0.9 * tracedGap(lens),
  };
};
