/** Findings of the lens: numbers that contradict each other, or that no lens sheet can have. */
import { angleCheck } from '../../core/lens/angle-check.ts';
import { bestFocusRadius, FOCUS_TOLERANCE, focusCheck, standing } from '../../core/lens/focus.ts';
import { ribRadius } from '../../core/lens/lens.ts';
import { trimmed } from '../../core/units/format.ts';
import { deg, degToRad, radToDeg } from '../../core/units/units.ts';
import { setRadius } from '../edits/consequences.ts';
import { lensOf } from '../facts/sheet.ts';
import type { Job } from '../schema/job.ts';
import type { Finding } from './finding.ts';
import { foundIn } from './finding.ts';

const degrees = (angle: number) => `${trimmed(angle, 1)}°`;

/** No radius is known, and no rib can have the radius that would focus its crest. */
const lensTooThin = (job: Job): Finding | undefined => {
  const lens = lensOf(job);
  const radius = ribRadius(lens);
  if (lens.radiusMm !== undefined || radius >= lens.pitchMm / 2) return undefined;
  const thinnest = (lens.pitchMm * lens.index) / (2 * (lens.index - 1));
  const why =
    `To focus its crest on the print at this thickness a rib would need a radius of ` +
    `${trimmed(radius, 3)} mm, less than half the pitch (${trimmed(lens.pitchMm / 2, 3)} mm)`;
  const best = bestFocusRadius(lens);
  if (best === undefined)
    return {
      id: 'lens-too-thin',
      severity: 'problem',
      title: 'This lens cannot be in focus',
      figure: `thickness ${trimmed(lens.thicknessMm, 3)} mm, needs ${trimmed(thinnest, 3)} mm`,
      reason: `${why}: no such rib can stand.`,
      remedy: 'Check lens pitch, lens thickness and refractive index against the sheet.',
    };
  const rounded = Number(best.toFixed(4));
  return {
    id: 'radius-needed',
    severity: 'caution',
    title: 'Give this lens its rib radius',
    figure: `${trimmed(rounded, 4)} mm would be in best focus`,
    reason: `${why}. Sheets as thin as this are made to focus by the whole rib instead.`,
    remedy: 'Take the radius from the supplier’s data, or the one of best focus until you know.',
    action: {
      label: `Take ${trimmed(rounded, 4)} mm`,
      undoLabel: 'rib radius',
      edit: (current) => setRadius(current, rounded),
    },
  };
};

/** Advice on what to measure: the supplier's angle agrees with the thickness or with the radius. */
const suspect = (job: Job): string => {
  const lens = lensOf(job);
  const stated = job.lens.supplierAngleDeg;
  if (stated !== undefined && angleCheck(lens, degToRad(deg(stated))).agrees)
    return 'The supplier’s angle agrees with the thickness, so measure the radius again.';
  return stated === undefined
    ? 'Measure the thickness again over several sheets, without film or adhesive; then ask the supplier for the radius.'
    : 'The supplier’s angle does not agree with the thickness either, so measure the thickness first.';
};

const offFocus = (job: Job): Finding | undefined => {
  const lens = lensOf(job);
  if (standing(lens) === undefined) return undefined;
  const check = focusCheck(lens);
  if (check === undefined || Math.abs(check.off) <= FOCUS_TOLERANCE) return undefined;
  const [best, crest] = [trimmed(check.bestMm, 3), trimmed(check.crestMm, 3)];
  return {
    id: 'off-focus',
    severity: 'caution',
    title: 'Thickness and rib radius contradict each other',
    figure: `${trimmed(100 * Math.abs(check.off), 0)} % too ${check.off < 0 ? 'thin' : 'thick'} for focus`,
    reason:
      `A rib of ${trimmed(ribRadius(lens), 4)} mm radius focuses between ${best} and ${crest} mm ` +
      `behind its crest; this sheet is ${trimmed(lens.thicknessMm, 3)} mm thick.`,
    remedy: suspect(job),
    action: {
      label: 'Take the radius as not known',
      undoLabel: 'rib radius',
      edit: (current) => setRadius(current, undefined),
    },
  };
};

const angleContradicted = (job: Job): Finding | undefined => {
  const stated = job.lens.supplierAngleDeg;
  if (stated === undefined) return undefined;
  const { agrees, coneRad, edgeRad, impliedThicknessMm } = angleCheck(
    lensOf(job),
    degToRad(deg(stated)),
  );
  if (agrees) return undefined;
  const edge = edgeRad === undefined ? '' : `, by the edge ray ${degrees(radToDeg(edgeRad))}`;
  return {
    id: 'angle-contradicted',
    severity: 'caution',
    title: 'The supplier’s angle contradicts the sheet’s numbers',
    figure: `${degrees(stated)} stated, ${degrees(radToDeg(coneRad))} computed`,
    reason:
      `From pitch, thickness and index the cone is ${degrees(radToDeg(coneRad))}${edge}: more than ` +
      `15 % from what is stated. ${degrees(stated)} would fit a sheet about ${trimmed(impliedThicknessMm, 3)} mm thick.`,
    remedy:
      'Measure the thickness again, crest to back; if it stands, check the pitch and the material.',
  };
};

export const lensFindings = (job: Job): Finding[] =>
  foundIn([lensTooThin(job), offFocus(job), angleContradicted(job)]);
