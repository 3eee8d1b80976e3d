/** Findings of the plan: whether this lens can exist, and what asks too much of it. */
import { nameInText } from '../../core/names/shown.ts';
import { qualityAt, rangeWithin, stepAt } from '../../core/plan/depth.ts';
import { widestFor } from '../../core/plan/tolerance.ts';
import { trimmed } from '../../core/units/format.ts';
import { lpi, mm, rad, radToDeg } from '../../core/units/units.ts';
import type { Finding } from './finding.ts';
import { foundIn } from './finding.ts';
import type { DepthMark, Job } from '../schema/job.ts';
import {
  depthGainOf,
  depthMarksOf,
  depthSettingOf,
  exactnessOf,
  lensFacts,
} from '../facts/plan.ts';
import type { ParallaxFacts } from '../facts/parallax.ts';
import { acrossMm, pitchStanding } from '../facts/sheet.ts';
import { strainOf } from '../facts/strain.ts';
import { printsDepth, showsDepth } from '../facts/prints-depth.ts';
import { sharpGain } from '../facts/rig.ts';
import { lensFindings } from './lens.ts';
import { depthGainRemedy, slotsRemedy } from './remedies.ts';
import { walkPastFinding } from './wall.ts';

const fewToldApart = (job: Job): Finding | undefined => {
  if (job.viewSlots < 2) return undefined;
  const facts = lensFacts(job);
  // Slots beyond the dots are a finding of their own.
  if (facts === undefined || facts.toldApart >= Math.min(job.viewSlots, facts.fit.wholeFrames))
    return undefined;
  const { toldApart, ownShare } = facts;
  const depth = printsDepth(job);
  const wanted = depth ? Math.min(job.viewSlots, facts.fit.wholeFrames) : job.viewSlots;
  return {
    id: 'few-told-apart',
    severity: toldApart < 2 || toldApart < wanted / 3 ? 'caution' : 'note',
    title: `An eye tells ${toldApart} frames apart, not ${wanted}`,
    figure: `a slot has ${trimmed(100 * ownShare, 0)} % of what is seen there`,
    reason:
      'The spread of the lens and the printed dot mix neighbouring slots: a little smooths the ' +
      'turn of a depth picture, much makes flips ghost.',
    remedy: `${depth ? 'Keep them for depth. ' : ''}For flips and moments use at most ${Math.max(2, toldApart)} view slots.`,
    ...(toldApart < 2 || depth ? {} : { action: slotsRemedy(toldApart) }),
  };
};

const named = (mark: DepthMark) =>
  `${mark.name === '' ? 'A thing without a name' : nameInText(mark.name)} ` +
  (mark.zMm < 0 ? `${trimmed(-mark.zMm, 0)} mm in front` : `${trimmed(mark.zMm, 0)} mm behind`);

/** The largest gain, rounded down to three figures, that keeps all marks before the eye sharp. */
const fittingGain = (job: Job): number | undefined => {
  const setting = depthSettingOf(job);
  const depths = depthMarksOf(job)
    .map(({ zMm }) => zMm)
    .filter((z) => z > -setting.distanceMm);
  if (depths.length === 0) return undefined;
  return sharpGain(setting, {
    frontMm: mm(Math.min(0, ...depths)),
    behindMm: mm(Math.max(0, ...depths)),
  });
};

/** The gain that fits all marks, with its remedy; undefined when all are sharp already. */
export const gainRemedy = (job: Job) => {
  const gain = fittingGain(job);
  return gain === undefined || gain >= depthGainOf(job)
    ? undefined
    : { gain, ...depthGainRemedy(gain) };
};

const tooDeep = (job: Job): Finding | undefined => {
  const setting = depthSettingOf(job);
  const marks = depthMarksOf(job).filter(({ zMm }) => zMm > -setting.distanceMm);
  const deep = marks.filter(({ zMm }) => qualityAt(setting, mm(zMm)) !== 'sharp');
  const [first] = [...deep].sort(
    (a, b) => Math.abs(stepAt(setting, mm(b.zMm))) - Math.abs(stepAt(setting, mm(a.zMm))),
  );
  const gain = fittingGain(job);
  if (first === undefined || gain === undefined) return undefined;
  const ribs = Math.abs(stepAt(setting, mm(first.zMm))) / setting.lens.pitchMm;
  const { frontMm, behindMm } = rangeWithin(setting, 1);
  const behind = behindMm === Infinity ? 'any distance' : `${trimmed(behindMm, 1)} mm`;
  return {
    id: 'scene-too-deep',
    severity: qualityAt(setting, mm(first.zMm)) === 'broken' ? 'problem' : 'caution',
    title: 'The scene is deeper than the lens can show',
    figure: `${named(first)} moves ${trimmed(ribs, 1)} ribs per view`,
    reason:
      `At a depth gain of ${trimmed(depthGainOf(job), 3)} the print is sharp from ` +
      `${trimmed(-frontMm, 1)} mm in front to ${behind} behind; beyond that edges double.`,
    remedy: `A depth gain of ${gain} keeps everything sharp; or use more view slots, or bring the things nearer the print.`,
    action: depthGainRemedy(gain),
  };
};

/** A thing at the eye or behind it can neither be rendered nor seen. */
const behindTheEye = (job: Job): Finding | undefined => {
  const distance = job.print.viewingDistanceMm;
  const mark = depthMarksOf(job).find(({ zMm }) => zMm <= -distance);
  if (mark === undefined) return undefined;
  return {
    id: 'mark-behind-eye',
    severity: 'caution',
    title: `${mark.name === '' ? 'A thing' : nameInText(mark.name)} stands behind the eye`,
    figure: `${trimmed(-mark.zMm, 0)} mm in front, the eye is at ${trimmed(distance, 0)} mm`,
    reason: 'Nothing can be shown nearer than the eye that looks.',
    remedy: 'Move it on the depth ruler, or view the print from further away.',
    action: { label: 'Go to Plan', goTo: 'plan', part: 'depth' },
  };
};

/** By whichever is known: things on the ruler, the rig's nearest and farthest, the measured frames. */
const eyeComfort = (job: Job, measured: ParallaxFacts | undefined): Finding | undefined => {
  const worst = strainOf(job, measured);
  if (worst === undefined) return undefined;
  return {
    id: 'eye-comfort',
    severity: 'caution',
    title: 'Depth that strains the eyes',
    figure: `${worst.of}: ${trimmed(Math.abs(radToDeg(rad(worst.rad))), 1)}° between the eyes`,
    reason: 'Beyond about one degree many eyes can no longer join the two views into one thing.',
    remedy:
      'Lower the depth gain and render again, move the key plane, or view it from further away. Stop looking if it hurts.',
    action: { label: 'Go to Plan', goTo: 'plan', part: 'depth' },
  };
};

/** Only once the person has said how exactly the pitch is known; else `nominal-pitch` speaks of it. */
const tooWide = (job: Job): Finding | undefined => {
  if (job.exactness === undefined) return undefined;
  const { budgetZones, pitchUnsureLpi } = exactnessOf(job);
  const widest = widestFor(budgetZones, lpi(pitchUnsureLpi));
  const across = acrossMm(job);
  if (across <= widest * (1 + 1e-9)) return undefined;
  const proved = pitchStanding(job) === 'proved';
  return {
    id: 'print-too-wide',
    severity: 'caution',
    title: 'The print is wider than the pitch is known for',
    figure: `${trimmed(across, 0)} mm across the ribs; this pitch is known well enough for ${trimmed(widest, 0)} mm`,
    reason:
      `A pitch known to ±${trimmed(pitchUnsureLpi, 3)} LPI slides the picture by ` +
      `${trimmed(budgetZones, 2)} of a zone over ${trimmed(widest, 0)} mm, and by more over this width.`,
    remedy: proved
      ? 'Read the strip again with a smaller spread, or say on the Plan bench how exactly it was read.'
      : 'Prove the pitch with a strip, or print smaller.',
    action: proved
      ? { label: 'Go to Plan', goTo: 'plan', part: 'exactness' }
      : { label: 'Prove it with a strip', goTo: 'calibrate', part: 'strip' },
  };
};

/** @param measured parallax of the frames, once it is known */
export const planFindings = (job: Job, measured?: ParallaxFacts): Finding[] =>
  foundIn([
    ...lensFindings(job),
    fewToldApart(job),
    ...(showsDepth(job) ? [tooDeep(job), behindTheEye(job), eyeComfort(job, measured)] : []),
    tooWide(job),
    walkPastFinding(job),
  ]);
