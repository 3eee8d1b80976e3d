/** The figures of the depth section. */
import type { DepthQuality } from '../../core/plan/depth.ts';
import {
  COMFORT_RAD,
  comfortRange,
  disparity,
  perceivedDepth,
  qualityAt,
  rangeWithin,
  SHARP_LENTICULES,
  SOFT_LENTICULES,
  stepAt,
} from '../../core/plan/depth.ts';
import { mm, radToDeg } from '../../core/units/units.ts';
import type { DepthMark, Job } from '../schema/job.ts';
import { depthGainOf, depthMarksOf, depthSettingOf, eyesApartOf } from './plan.ts';

export const qualityWords: Readonly<Record<DepthQuality, string>> = {
  sharp: 'sharp',
  soft: 'soft',
  broken: 'breaks up',
};

export const depthFacts = (job: Job) => {
  const setting = depthSettingOf(job);
  const { distanceMm } = setting;
  return {
    setting,
    sharp: rangeWithin(setting, SHARP_LENTICULES),
    soft: rangeWithin(setting, SOFT_LENTICULES),
    comfort: comfortRange(COMFORT_RAD, distanceMm, eyesApartOf(job), depthGainOf(job)),
  };
};

/** How a thing on the ruler looks; undefined at the eye and behind it. */
export const markFacts = (job: Job, { zMm }: Pick<DepthMark, 'zMm'>) => {
  const setting = depthSettingOf(job);
  const { distanceMm, lens } = setting;
  if (zMm <= -distanceMm) return undefined;
  const z = mm(zMm);
  const degrees = radToDeg(disparity(z, distanceMm, eyesApartOf(job), depthGainOf(job)));
  return {
    quality: qualityAt(setting, z),
    ribs: Math.abs(stepAt(setting, z)) / lens.pitchMm,
    seemsMm: perceivedDepth(z, distanceMm, depthGainOf(job)),
    degrees,
    strains: Math.abs(degrees) > radToDeg(COMFORT_RAD),
  };
};

/** The thing in front of the eye whose two pictures are furthest apart. */
export const deepestMark = (job: Job): DepthMark | undefined =>
  depthMarksOf(job)
    .filter((mark) => markFacts(job, mark) !== undefined)
    .sort(
      (a, b) =>
        Math.abs(markFacts(job, b)?.degrees ?? 0) - Math.abs(markFacts(job, a)?.degrees ?? 0),
    )[0];
