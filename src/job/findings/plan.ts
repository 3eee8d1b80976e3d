/** Findings of the plan: numbers of the lens that contradict each other, and what asks too much of it. */
import {
  angleCheck,
  bestFocusRadius,
  FOCUS_TOLERANCE,
  focusCheck,
  standing,
} from '../../core/lens/focus.ts';
import { ribRadius } from '../../core/lens/lens.ts';
import {
  COMFORT_RAD,
  disparity,
  gainThatFits,
  qualityAt,
  rangeWithin,
  stepAt,
} from '../../core/plan/depth.ts';
import { widestFor } from '../../core/plan/tolerance.ts';
import { trimmed } from '../../core/units/format.ts';
import { deg, degToRad, lpi, mm, radToDeg } from '../../core/units/units.ts';
import { setDepthGain, setRadius, setViewSlots } from '../edits/consequences.ts';
import type { Finding } from './finding.ts';
import type { DepthMark, Job } from '../schema/job.ts';
import {
  depthGainOf,
  depthMarksOf,
  depthSettingOf,
  exactnessOf,
  eyesApartOf,
  lensFacts,
} from '../facts/plan.ts';
import { acrossMm, lensOf, pitchStanding } from '../facts/sheet.ts';

const degrees = (angle: number) => `${trimmed(angle, 1)}°`;

/** No radius is known, and the one that would focus the crest cannot stand. */
const lensTooThin = (job: Job): Finding[] => {
  const lens = lensOf(job);
  const radius = ribRadius(lens);
  if (lens.radiusMm !== undefined || radius >= lens.pitchMm / 2) return [];
  const thinnest = (lens.pitchMm * lens.index) / (2 * (lens.index - 1));
  const why =
    `To focus its crest on the print at this thickness a rib would need a radius of ` +
    `${trimmed(radius, 3)} mm, less than half the pitch (${trimmed(lens.pitchMm / 2, 3)} mm)`;
  const best = bestFocusRadius(lens);
  if (best === undefined)
    return [
      {
        id: 'lens-too-thin',
        severity: 'problem',
        title: 'This lens cannot be in focus',
        figure: `thickness ${trimmed(lens.thicknessMm, 3)} mm, needs ${trimmed(thinnest, 3)} mm`,
        reason: `${why}: no such rib can stand.`,
        remedy: 'Check lens pitch, lens thickness and refractive index against the sheet.',
      },
    ];
  const rounded = Number(best.toFixed(4));
  return [
    {
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
    },
  ];
};

/** Which of thickness and radius the supplier's angle sides with, as advice on what to measure. */
const suspect = (job: Job): string => {
  const lens = lensOf(job);
  const stated = job.lens.supplierAngleDeg;
  if (stated !== undefined && angleCheck(lens, degToRad(deg(stated))).agrees)
    return 'The supplier’s angle agrees with the thickness, so measure the radius again.';
  return stated === undefined
    ? 'Measure the thickness again over several sheets, without film or adhesive; then ask the supplier for the radius.'
    : 'The supplier’s angle does not agree with the thickness either, so measure the thickness first.';
};

const offFocus = (job: Job): Finding[] => {
  const lens = lensOf(job);
  if (standing(lens) === undefined) return [];
  const check = focusCheck(lens);
  if (check === undefined || Math.abs(check.off) <= FOCUS_TOLERANCE) return [];
  const [best, crest] = [trimmed(check.bestMm, 3), trimmed(check.crestMm, 3)];
  return [
    {
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
    },
  ];
};

const angleContradicted = (job: Job): Finding[] => {
  const stated = job.lens.supplierAngleDeg;
  if (stated === undefined) return [];
  const { agrees, coneRad, edgeRad, impliedThicknessMm } = angleCheck(
    lensOf(job),
    degToRad(deg(stated)),
  );
  if (agrees) return [];
  const edge = edgeRad === undefined ? '' : `, by the edge ray ${degrees(radToDeg(edgeRad))}`;
  return [
    {
      id: 'angle-contradicted',
      severity: 'caution',
      title: 'The supplier’s angle contradicts the sheet’s numbers',
      figure: `${degrees(stated)} stated, ${degrees(radToDeg(coneRad))} reckoned`,
      reason:
        `From pitch, thickness and index the cone is ${degrees(radToDeg(coneRad))}${edge}: more than ` +
        `15 % from what is stated. ${degrees(stated)} would fit a sheet ${trimmed(impliedThicknessMm, 3)} mm thick.`,
      remedy:
        'Measure the thickness again, crest to back; if it stands, check the pitch and the material.',
    },
  ];
};

const fewToldApart = (job: Job): Finding[] => {
  if (job.viewSlots < 2) return [];
  const facts = lensFacts(job);
  // Slots beyond the dots are a finding of their own.
  if (facts === undefined || facts.toldApart >= Math.min(job.viewSlots, facts.fit.wholeFrames))
    return [];
  const { toldApart, ownShare } = facts;
  return [
    {
      id: 'few-told-apart',
      severity: toldApart < 2 || toldApart < job.viewSlots / 3 ? 'caution' : 'note',
      title: `An eye tells ${toldApart} frames apart, not ${job.viewSlots}`,
      figure: `a slot has ${trimmed(100 * ownShare, 0)} % of what is seen there`,
      reason:
        'The spread of the lens and the printed dot mix neighbouring slots: a little smooths the ' +
        'turn of a depth picture, much makes flips ghost.',
      remedy: `For flips and moments use at most ${Math.max(2, toldApart)} view slots.`,
      ...(toldApart < 2
        ? {}
        : {
            action: {
              label: `Set view slots to ${toldApart}`,
              undoLabel: 'view slots',
              edit: (current: Job) => setViewSlots(current, toldApart),
            },
          }),
    },
  ];
};

const named = (mark: DepthMark) =>
  `${mark.name === '' ? 'A thing without a name' : mark.name} ` +
  (mark.zMm < 0 ? `${trimmed(-mark.zMm, 0)} mm in front` : `${trimmed(mark.zMm, 0)} mm behind`);

/** The largest gain, rounded down to three figures, that keeps all marks before the eye sharp. */
const fittingGain = (job: Job): number | undefined => {
  const setting = depthSettingOf(job);
  const depths = depthMarksOf(job)
    .map(({ zMm }) => zMm)
    .filter((z) => z > -setting.distanceMm);
  if (depths.length === 0) return undefined;
  const gain = gainThatFits(setting, {
    frontMm: mm(Math.min(0, ...depths)),
    behindMm: mm(Math.max(0, ...depths)),
  });
  if (!Number.isFinite(gain)) return undefined;
  const digit = 10 ** (Math.floor(Math.log10(gain)) - 2);
  return Math.max(0.001, Number((Math.floor(gain / digit + 1e-9) * digit).toPrecision(3)));
};

/** The press that takes this gain; the same in the findings and at the ruler. */
const takeGain = (gain: number) => ({
  label: `Set depth gain to ${gain}`,
  undoLabel: 'depth gain',
  edit: (current: Job): Job => setDepthGain(current, gain),
});

/** The gain that fits all marks and the press that takes it; undefined when all are sharp already. */
export const gainRemedy = (job: Job) => {
  const gain = fittingGain(job);
  return gain === undefined || gain >= depthGainOf(job) ? undefined : { gain, ...takeGain(gain) };
};

const tooDeep = (job: Job): Finding[] => {
  const setting = depthSettingOf(job);
  const marks = depthMarksOf(job).filter(({ zMm }) => zMm > -setting.distanceMm);
  const deep = marks.filter(({ zMm }) => qualityAt(setting, mm(zMm)) !== 'sharp');
  const [first] = [...deep].sort(
    (a, b) => Math.abs(stepAt(setting, mm(b.zMm))) - Math.abs(stepAt(setting, mm(a.zMm))),
  );
  const gain = fittingGain(job);
  if (first === undefined || gain === undefined) return [];
  const ribs = Math.abs(stepAt(setting, mm(first.zMm))) / setting.lens.pitchMm;
  const { frontMm, behindMm } = rangeWithin(setting, 1);
  const behind = behindMm === Infinity ? 'any distance' : `${trimmed(behindMm, 1)} mm`;
  return [
    {
      id: 'scene-too-deep',
      severity: qualityAt(setting, mm(first.zMm)) === 'broken' ? 'problem' : 'caution',
      title: 'The scene is deeper than the lens can show',
      figure: `${named(first)} moves ${trimmed(ribs, 1)} ribs from view to view`,
      reason:
        `At a depth gain of ${trimmed(depthGainOf(job), 3)} the print is sharp from ` +
        `${trimmed(-frontMm, 1)} mm in front to ${behind} behind; beyond that edges double.`,
      remedy: `A depth gain of ${gain} keeps everything sharp; or use more view slots, or bring the things nearer the print.`,
      action: takeGain(gain),
    },
  ];
};

/** A thing at the eye or behind it can neither be rendered nor seen. */
const behindTheEye = (job: Job): Finding[] => {
  const distance = job.print.viewingDistanceMm;
  const mark = depthMarksOf(job).find(({ zMm }) => zMm <= -distance);
  if (mark === undefined) return [];
  return [
    {
      id: 'mark-behind-eye',
      severity: 'caution',
      title: `${mark.name === '' ? 'A thing' : mark.name} stands behind the eye`,
      figure: `${trimmed(-mark.zMm, 0)} mm in front, the eye is at ${trimmed(distance, 0)} mm`,
      reason: 'Nothing can be shown nearer than the eye that looks.',
      remedy: 'Move it on the depth ruler, or view the print from further away.',
      action: { label: 'Go to Plan', goTo: 'plan' },
    },
  ];
};

const eyeComfort = (job: Job): Finding[] => {
  if (job.ribs !== 'upright' || job.viewSlots < 3) return [];
  const [distance, apart, gain] = [
    mm(job.print.viewingDistanceMm),
    eyesApartOf(job),
    depthGainOf(job),
  ];
  const angleOf = ({ zMm }: DepthMark) => Math.abs(disparity(mm(zMm), distance, apart, gain));
  const [worst] = depthMarksOf(job)
    .filter(({ zMm }) => zMm > -distance)
    .sort((a, b) => angleOf(b) - angleOf(a));
  if (worst === undefined || angleOf(worst) <= COMFORT_RAD) return [];
  return [
    {
      id: 'eye-comfort',
      severity: 'caution',
      title: 'Depth that strains the eyes',
      figure: `${named(worst)}: ${trimmed((angleOf(worst) * 180) / Math.PI, 1)}° between the eyes`,
      reason: 'Beyond about one degree many eyes can no longer join the two views into one thing.',
      remedy: 'Lower the depth gain or view it from further away. Stop looking if it hurts.',
      action: { label: 'Go to Plan', goTo: 'plan' },
    },
  ];
};

/** Only once the person has said how exactly the pitch is known; else `nominal-pitch` speaks of it. */
const tooWide = (job: Job): Finding[] => {
  if (job.exactness === undefined) return [];
  const { budgetZones, pitchUnsureLpi } = exactnessOf(job);
  const widest = widestFor(budgetZones, lpi(pitchUnsureLpi));
  const across = acrossMm(job);
  if (across <= widest * (1 + 1e-9)) return [];
  const proved = pitchStanding(job) === 'proved';
  return [
    {
      id: 'print-too-wide',
      severity: 'caution',
      title: 'The print is wider than the pitch is known for',
      figure: `${trimmed(across, 0)} mm across the ribs, safe to ${trimmed(widest, 0)} mm`,
      reason:
        `A pitch known to ±${trimmed(pitchUnsureLpi, 3)} LPI slides the picture by ` +
        `${trimmed(budgetZones, 2)} of a zone over ${trimmed(widest, 0)} mm, and by more over this width.`,
      remedy: proved
        ? 'Read the strip again with a smaller spread, or say on the Plan bench how exactly it was read.'
        : 'Prove the pitch with a strip, or print smaller.',
      action: proved
        ? { label: 'Go to Plan', goTo: 'plan' }
        : { label: 'Prove it with a strip', goTo: 'calibrate' },
    },
  ];
};

export const planFindings = (job: Job): Finding[] => [
  ...lensTooThin(job),
  ...offFocus(job),
  ...angleContradicted(job),
  ...fewToldApart(job),
  ...tooDeep(job),
  ...behindTheEye(job),
  ...eyeComfort(job),
  ...tooWide(job),
];
