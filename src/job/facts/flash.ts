/** Whether a print may flash as it turns. */
import { LINEAR_MAX } from '../../core/colour/srgb.ts';
import type { SlotContent } from '../../core/frames/recipes.ts';
import type { Job } from '../schema/job.ts';
import { slotsOf } from './sheet.ts';
import { plainLight } from './slot-pictures.ts';

/** Difference in relative luminance between the two sides of a flash (WCAG 2.2, general flash). */
const FLASH_STEP = 0.1;

/** Mean light of a slot, 0 … 1. */
const lightOf = (job: Job) => {
  const scale = 2 ** job.exposureStops;
  const known = new Map(
    job.frames.map(({ id, meanLight, sceneLinear }) => [
      id,
      Math.min(1, meanLight * (sceneLinear ? scale : 1)),
    ]),
  );
  return ({ parts, plain }: SlotContent): number =>
    plain === undefined
      ? parts.reduce((sum, { frame, weight }) => sum + weight * (known.get(frame) ?? 0), 0)
      : plainLight[plain] / LINEAR_MAX;
};

/**
 * True for a flip, a crossfade, a slot filled by hand, and neighbouring slots that differ in light. The last and the
 * first slot are neighbours too: there the next zone begins.
 */
export const mayFlash = (job: Job): boolean => {
  const kind = job.recipe?.kind;
  if (kind === 'flip' || kind === 'change' || job.slotsByHand?.some((id) => id !== '') === true)
    return true;
  const lights = slotsOf(job).map(lightOf(job));
  return lights.some(
    (light, slot) => Math.abs(light - (lights.at(slot - 1) ?? light)) >= FLASH_STEP,
  );
};
