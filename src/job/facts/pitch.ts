/** The job's pitch strip: its bands, the room on the paper, and what was read. */
import { viewingPitchAt } from '../../core/lens/traced.ts';
import type { Paper, StripRoom } from '../../core/pitch/paper.ts';
import { papers, stripRoom } from '../../core/pitch/paper.ts';
import type { PitchReading } from '../../core/pitch/reading.ts';
import type { Scale } from '../../core/pitch/scale.ts';
import { checkScale } from '../../core/pitch/scale.ts';
import { stripLayout } from '../../core/pitch/strip-layout.ts';
import type { BandPlan, StripSpec } from '../../core/pitch/strip.ts';
import { MOST_BANDS, adviseBands, bandsOf } from '../../core/pitch/strip.ts';
import type { Mm } from '../../core/units/units.ts';
import {
  MM_PER_INCH,
  dpi,
  lpi,
  lpiToMm,
  mm,
  mmToInch,
  mmToLpi,
  rad,
  radToDeg,
  wholeDots,
} from '../../core/units/units.ts';
import type { Bars } from '../schema/bar.ts';
import type { ChangeOf } from '../schema/changed.ts';
import { changed } from '../schema/changed.ts';
import type { Job } from '../schema/job.ts';
import type { PitchStrip, WovenStrip } from '../schema/pitch.ts';
import { exactnessOf } from './plan.ts';
import { acrossMm, lensOf, pitchTolerance, viewingPitchOf } from './sheet.ts';
import { edgeWords } from '../words/printer.ts';
import type { PrinterAxis } from './printer.ts';
import { axisOfStrip, gridOf } from './printer.ts';

export const MARGIN_MM = 3;
/** Shorter bands tell nothing. */
export const LEAST_ACROSS_MM = 20;

const stripOf = (job: Job): PitchStrip => job.pitchStrip ?? {};

export const readFromOf = (job: Job): Mm =>
  mm(stripOf(job).readFromMm ?? job.print.viewingDistanceMm);

/** ΔLPI that spends the job's whole budget over the print (relation 7). */
export const pitchBudget = (job: Job): number => pitchTolerance(job, exactnessOf(job).budgetZones);

export const paperOf = (job: Job): Paper => {
  const { paper = 'a4', onItsSide = false, paperWidthMm, paperHeightMm, marginMm } = stripOf(job);
  const [short, long] =
    paper === 'own' ? [paperWidthMm ?? 210, paperHeightMm ?? 297] : papers[paper].sizeMm;
  const turned = onItsSide && paper !== 'own';
  return {
    widthMm: turned ? long : short,
    heightMm: turned ? short : long,
    marginMm: marginMm ?? MARGIN_MM,
  };
};

export const roomOf = (job: Job): StripRoom => stripRoom(paperOf(job), job.ribs);

/**
 * Dots of a band: as many as the print has across its ribs, or as the paper has room for. The difference is
 * even, so that the ribs meet the dots as they do on the sheet.
 */
export const bandDotsOf = (job: Job): number => {
  const density = dpi(gridOf(job).acrossDpi);
  const wanted = wholeDots(acrossMm(job), density);
  const room = Math.floor((Math.max(0, roomOf(job).acrossMm) * density) / MM_PER_INCH);
  return wanted <= room ? wanted : wanted - 2 * Math.ceil((wanted - room) / 2);
};

const bandsAcrossMm = (job: Job): Mm => mm((bandDotsOf(job) * MM_PER_INCH) / gridOf(job).acrossDpi);

/** The woven pitch as known so far, for the reading distance. */
export const knownPitchOf = (job: Job): Mm =>
  viewingPitchAt(
    lensOf(job),
    viewingPitchOf(job),
    mm(job.print.viewingDistanceMm),
    readFromOf(job),
  );

/** The bands that the studio advises. @param finer 2 halves the steps. */
export const advisedBands = (job: Job, finer = 1) =>
  adviseBands({
    centreLpi: mmToLpi(knownPitchOf(job)),
    unsureLpi: job.provedPitch?.plusMinusLpi ?? exactnessOf(job).pitchUnsureLpi,
    acrossIn: Math.max(mmToInch(bandsAcrossMm(job)), LEAST_ACROSS_MM / MM_PER_INCH),
    budgetZones: exactnessOf(job).budgetZones,
    room: roomOf(job).bands,
    finer,
  });

/** The person's bands; the studio advises what they left out. */
export const bandPlanOf = (job: Job): BandPlan => {
  const advised = advisedBands(job);
  const strip = stripOf(job);
  return {
    centreLpi: strip.centreLpi ?? advised.centreLpi,
    spreadLpi: strip.spreadLpi ?? advised.spreadLpi,
    bands: strip.bands ?? advised.bands,
  };
};

export type StripPlan =
  | {
      readonly ok: true;
      readonly spec: StripSpec;
      readonly acrossMm: Mm;
      readonly narrowed: boolean;
    }
  | { readonly ok: false; readonly message: string };

const refused = (message: string): StripPlan => ({ ok: false, message });

/** The strip that the fields describe, or why it cannot be woven. */
export const stripPlanOf = (job: Job, barsIn: 'mm' | 'in'): StripPlan => {
  const plan = bandPlanOf(job);
  const room = roomOf(job);
  const dots = bandDotsOf(job);
  const width = bandsAcrossMm(job);
  if (width < Math.min(LEAST_ACROSS_MM, acrossMm(job)))
    return refused(
      'This paper has no room for a strip beside its labels and margins: choose larger paper, turn it, or set a smaller Printer margin.',
    );
  if (plan.bands > room.bands)
    return refused(
      `This paper has room for ${Math.max(0, Math.min(MOST_BANDS, room.bands))} bands, not ${plan.bands}: set fewer Bands, or choose larger paper.`,
    );
  if (!(plan.spreadLpi < plan.centreLpi))
    return refused('Strip spread must be smaller than Strip centre.');
  const bandsLpi = bandsOf(plan);
  if (bandsLpi.some((band, i) => i > 0 && band <= (bandsLpi[i - 1] as number)))
    return refused(
      'The bands are less than a thousandth of a line to the inch apart: set a wider Strip spread or fewer Bands.',
    );
  if (gridOf(job).acrossDpi < 4 * (bandsLpi.at(-1) as number))
    return refused(
      'A rib is less than four printed dots wide, too few to draw its line: set more Dots across.',
    );
  return {
    ok: true,
    acrossMm: width,
    narrowed: dots < wholeDots(acrossMm(job), dpi(gridOf(job).acrossDpi)),
    spec: {
      acrossDpi: gridOf(job).acrossDpi,
      alongDpi: gridOf(job).alongDpi,
      ribs: job.ribs,
      bandsLpi,
      bandDots: dots,
      lensLpi: mmToLpi(mm(job.lens.pitchMm)),
      readFromMm: readFromOf(job),
      barsIn,
    },
  };
};

/** What a strip says of itself, for whoever finds it later. @param day ISO 8601 */
export const stripFootOf = (job: Job, day: string): string => {
  const { paperKind = '' } = stripOf(job);
  const fed = `${edgeWords[gridOf(job).fedFirst]} first`;
  return [job.name, `woven ${day}`, fed, ...(paperKind === '' ? [] : [`paper ${paperKind}`])].join(
    ', ',
  );
};

/** What the job keeps of a strip, so that it can be read later. */
export const wovenOf = (job: Job, spec: StripSpec, wovenOn: string): WovenStrip => {
  const { barAcrossMm, barAlongMm } = stripLayout(spec);
  return {
    bandsLpi: [...spec.bandsLpi],
    acrossMm: (spec.bandDots * MM_PER_INCH) / spec.acrossDpi,
    readFromMm: spec.readFromMm,
    barAcrossMm,
    barAlongMm,
    wovenOn,
    acrossDpi: spec.acrossDpi,
    alongDpi: spec.alongDpi,
    barsIn: spec.barsIn,
    ribs: spec.ribs,
    axis: gridOf(job).axis,
    lensPitchMm: job.lens.pitchMm,
  };
};

/** The strip, from what the job kept of it. */
export const specOfWoven = (job: Job, woven: WovenStrip): StripSpec => ({
  acrossDpi: woven.acrossDpi,
  alongDpi: woven.alongDpi ?? gridOf(job).alongDpi,
  ribs: woven.ribs,
  bandsLpi: woven.bandsLpi,
  bandDots: wholeDots(mm(woven.acrossMm), dpi(woven.acrossDpi)),
  lensLpi: mmToLpi(mm(woven.lensPitchMm)),
  readFromMm: woven.readFromMm,
  barsIn: woven.barsIn ?? 'mm',
});

/** Keeps a new strip and forgets the readings of the one before. */
export const keepWoven = (job: Job, woven: WovenStrip): Job => {
  const none = undefined;
  const noReading = {
    measuredAcrossMm: none,
    measuredAlongMm: none,
    bestPlace: none,
    counts: none,
    readBy: none,
  };
  return setStrip(job, { ...noReading, woven });
};

/** Undefined leaves a field to the studio's advice. */
export const setStrip = (job: Job, change: ChangeOf<PitchStrip>): Job => ({
  ...job,
  pitchStrip: changed(stripOf(job), change),
});

/** The printer's axis that the woven strip measures. */
export const axisOfWoven = ({ axis, ribs }: WovenStrip): PrinterAxis => axisOfStrip(axis, ribs);

/** Whether the woven strip is for the job's lens, printer setting and axis of the printer. */
export const wovenFits = (job: Job, woven: WovenStrip): boolean =>
  woven.lensPitchMm === job.lens.pitchMm &&
  woven.acrossDpi === gridOf(job).acrossDpi &&
  axisOfWoven(woven) === gridOf(job).axis;

/** A side is undefined until its bar is measured. */
export const scaleOf = (job: Job, strip: WovenStrip): Scale => {
  const { measuredAcrossMm, measuredAlongMm } = stripOf(job);
  return {
    across:
      measuredAcrossMm === undefined ? undefined : checkScale(strip.barAcrossMm, measuredAcrossMm),
    along:
      measuredAlongMm === undefined ? undefined : checkScale(strip.barAlongMm, measuredAlongMm),
  };
};

/** The measured bars of the strip; nothing where none is. */
const barsOf = (job: Job, strip: WovenStrip): { readonly bars?: Bars } => {
  const { measuredAcrossMm, measuredAlongMm } = stripOf(job);
  const bars: Bars = {
    ...(measuredAcrossMm === undefined
      ? {}
      : { across: { drawnMm: strip.barAcrossMm, measuredMm: measuredAcrossMm } }),
    ...(measuredAlongMm === undefined
      ? {}
      : { along: { drawnMm: strip.barAlongMm, measuredMm: measuredAlongMm } }),
  };
  return Object.keys(bars).length === 0 ? {} : { bars };
};

const skewOf = ({ skewRad, skewPlusMinusRad }: PitchReading) => ({
  ...(skewRad === undefined ? {} : { skewDeg: radToDeg(rad(skewRad)) }),
  ...(skewPlusMinusRad === undefined ? {} : { skewPlusMinusDeg: radToDeg(rad(skewPlusMinusRad)) }),
});

/** Makes the reading the job's pitch. @param readOn ISO date. */
export const prove = (job: Job, strip: WovenStrip, reading: PitchReading, readOn: string): Job => {
  const { paperKind } = stripOf(job);
  return {
    ...job,
    provedPitch: {
      viewingPitchMm: lpiToMm(lpi(reading.viewingLpi)),
      readFromMm: strip.readFromMm,
      method: reading.method,
      plusMinusLpi: reading.plusMinusLpi,
      readOn,
      ...(paperKind === undefined || paperKind === '' ? {} : { paper: paperKind }),
      direction: strip.ribs,
      axis: axisOfWoven(strip),
      ...skewOf(reading),
      ...barsOf(job, strip),
    },
  };
};

/** Sets up a finer strip around a pitch that is not proved exactly enough. */
export const setFinerStrip = (job: Job): Job => {
  const { centreLpi, spreadLpi, bands } = advisedBands(job, 2);
  return setStrip(job, { centreLpi, spreadLpi, bands });
};
