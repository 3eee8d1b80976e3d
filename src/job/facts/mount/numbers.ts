/** The job's numbers as text for the mounting steps: lengths in the shown unit, words for the sides. */
import { slideFromStretch, tolerance } from '../../../core/plan/tolerance.ts';
import { formatLengthRough, trimmed } from '../../../core/units/format.ts';
import type { LengthUnit } from '../../../core/units/parse.ts';
import type { Mm } from '../../../core/units/units.ts';
import { mm, mmToInch, mmToLpi, radToDeg } from '../../../core/units/units.ts';
import type { Job } from '../../schema/job.ts';
import { sayInPlace } from '../flip-changes.ts';
import { alongMm, exactnessOf } from '../plan.ts';
import { acrossMm, lensOf, viewingPitchOf } from '../sheet.ts';
import { isMirrored } from '../printer.ts';
import { gridOf } from '../printer.ts';
import { aroundOf } from './around.ts';

/** A rule is read to about half a millimetre (common practice, no source). */
const RULE_READ_MM = 0.5;

const twoFigures = (value: number): string => String(Number(value.toPrecision(2)));

/** Tolerances and parts of a rib. */
const fine = (length: number, unit: LengthUnit): string =>
  `${twoFigures(unit === 'mm' ? length : mmToInch(mm(length)))} ${unit}`;

/** Directions on the picture, for upright and for lying ribs. */
const words = {
  upright: {
    ribsRun: 'up and down the picture',
    across: 'left to right',
    along: 'top to bottom',
    sides: 'left and right edges',
    ends: 'top and bottom edges',
    tacked: 'top',
    rolled: 'from the top edge to the bottom',
    move: 'step sideways',
  },
  lying: {
    ribsRun: 'from left to right of the picture',
    across: 'top to bottom',
    along: 'left to right',
    sides: 'top and bottom edges',
    ends: 'left and right edges',
    tacked: 'left',
    rolled: 'from the left edge to the right',
    move: 'tip it',
  },
} as const;

export type MountNumbers = ReturnType<typeof mountNumbers>;

/** All as text with its unit; tolerances are either way and to two figures (optics relation 7). */
export const mountNumbers = (job: Job, unit: LengthUnit) => {
  const { budgetZones, stretchShare } = exactnessOf(job);
  const { pitchMm } = lensOf(job);
  const [across, along] = [acrossMm(job), alongMm(job)];
  const exact = tolerance(budgetZones, pitchMm, across, along);
  const strip = job.provedPitch?.bars?.across;
  const stripAcross = strip === undefined ? undefined : strip.measuredMm / strip.drawnMm;
  const page = job.page?.on === true ? job.page : undefined;
  const around = aroundOf(job);
  const mirrored = isMirrored(job);
  const rough = (length: Mm | number) => `${formatLengthRough(mm(length), unit)} ${unit}`;
  return {
    unit,
    ...words[job.ribs],
    mirrored,
    /** How the lens lies on what is printed. */
    laid: mirrored ? 'Smooth side down on the bare side of the film' : 'Smooth side down',
    hasRails: around.rails,
    hasMarks: around.marks,
    hasLabel: around.label,
    hasBar: around.bar,
    /** Undefined where there is none. */
    bleed: page !== undefined && page.bleedMm > 0 ? rough(page.bleedMm) : undefined,
    size: `${formatLengthRough(mm(job.print.widthMm), unit)} × ${rough(job.print.heightMm)}`,
    acrossSize: rough(across),
    /** As large as the strip of the proved pitch came out, or as drawn. */
    acrossPrinted: rough(across * (stripAcross ?? 1)),
    /** Undefined where the strip was not measured. */
    stripCameOut: stripAcross === undefined ? undefined : `${trimmed(100 * stripAcross, 1)} %`,
    alongSize: rough(along),
    distance: rough(job.print.viewingDistanceMm),
    /** What is seen straight ahead once the print lies in its place. */
    inPlace: sayInPlace(job),
    rib: fine(pitchMm, unit),
    slot: fine(pitchMm / job.viewSlots, unit),
    dot: fine(25.4 / gridOf(job).acrossDpi, unit),
    budget: trimmed(budgetZones, 2),
    pitchExact: `±${twoFigures(exact.pitchLpi)} LPI`,
    angle: `${twoFigures(radToDeg(exact.skewRad))}°`,
    offEnd: fine(exact.skewMm, unit),
    offCentre: `±${fine(exact.centringMm, unit)}`,
    sizeExact: fine(Math.max(RULE_READ_MM, stretchShare * across), unit),
    stretch: `${trimmed(100 * stretchShare, 2)} %`,
    stretchSlides: trimmed(slideFromStretch(stretchShare, pitchMm, across), 2),
    pitch: `${trimmed(mmToLpi(viewingPitchOf(job)), 3)} LPI`,
    lens: `${trimmed(mmToLpi(pitchMm), 3)} LPI`,
  };
};
