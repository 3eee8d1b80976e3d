/** How far the job's depth makes the eyes converge: by the ruler, the rig or the measured frames. */
import { COMFORT_RAD, disparity, disparityOfStep, stepAt } from '../../core/plan/depth.ts';
import { rigDepth } from '../../core/plan/rig.ts';
import { mm } from '../../core/units/units.ts';
import type { Job } from '../schema/job.ts';
import type { ParallaxFacts } from './parallax.ts';
import { framesPerSlot } from './parallax.ts';
import { depthGainOf, depthMarksOf, depthSettingOf, eyesApartOf } from './plan.ts';
import { keyDistanceOf, rigSettingOf } from './rig.ts';
import { sequenceOf } from './sheet.ts';

export interface Strain {
  /** What causes it: "Lighthouse", "The rig’s nearest thing". */
  readonly of: string;
  /** Angle between the eyes, against the print; above 0 for what lies behind it. */
  readonly rad: number;
}

const byRuler = (job: Job): Strain[] => {
  const distance = mm(job.print.viewingDistanceMm);
  return depthMarksOf(job)
    .filter(({ zMm }) => zMm > -distance)
    .map(({ name, zMm }) => ({
      of: name === '' ? 'A thing on the ruler' : name,
      rad: disparity(mm(zMm), distance, eyesApartOf(job), depthGainOf(job)),
    }));
};

/** Ribs per view → angle between the eyes, at the job's distance. */
const byStep = (job: Job, of: string, ribs: number): Strain => ({
  of,
  rad: disparityOfStep(ribs, depthSettingOf(job), eyesApartOf(job)),
});

/** Whether this many made views would strain the eyes at their largest step. */
export const stepsStrain = (job: Job, ribsPerView: number, views: number): boolean =>
  job.ribs === 'upright' &&
  Math.abs(
    disparityOfStep(ribsPerView, { ...depthSettingOf(job), viewSlots: views }, eyesApartOf(job)),
  ) > COMFORT_RAD;

const byRig = (job: Job): Strain[] => {
  const { near, far } = job.rig ?? {};
  const setting = rigSettingOf(job);
  const scale = setting.printWidthMm / setting.keyWidth;
  const ribs = (z: number) => stepAt(rigDepth(setting), mm(z * scale)) / job.lens.pitchMm;
  return [
    ...(near === undefined || near >= keyDistanceOf(job)
      ? []
      : [byStep(job, 'The rig’s nearest thing', ribs(-near))]),
    ...(far === undefined ? [] : [byStep(job, 'The rig’s farthest thing', ribs(far))]),
  ];
};

/** By the motion measured between neighbouring frames, however they came about. */
const byFrames = (job: Job, measured: ParallaxFacts | undefined): Strain[] => {
  if (measured === undefined) return [];
  const count = sequenceOf(job).length;
  // Fewer frames than slots are held: a step then takes several slots.
  const steps = framesPerSlot(job) * Math.min(1, (count - 1) / Math.max(1, job.viewSlots - 1));
  return [
    byStep(job, 'The nearest part of the frames', measured.spread.front * steps),
    byStep(job, 'The farthest part of the frames', measured.spread.behind * steps),
  ];
};

/** The worst strain that is known, if it is uncomfortable. Under lying ribs both eyes see the same view. */
export const strainOf = (job: Job, measured: ParallaxFacts | undefined): Strain | undefined => {
  if (job.ribs !== 'upright' || job.viewSlots < 3) return undefined;
  const [worst] = [...byRuler(job), ...byRig(job), ...byFrames(job, measured)].sort(
    (a, b) => Math.abs(b.rad) - Math.abs(a.rad),
  );
  return worst !== undefined && Math.abs(worst.rad) > COMFORT_RAD ? worst : undefined;
};
