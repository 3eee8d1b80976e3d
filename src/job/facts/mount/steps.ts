/**
 * The steps from the woven sheet to the print under its lens, with the job's numbers. Jobs keep the ids of ticked
 * steps, so ids never change.
 */
import type { SheetFileType } from '../../../core/encode/file-types.ts';
import { formatDensity } from '../../../core/units/format.ts';
import type { LengthUnit } from '../../../core/units/parse.ts';
import { dpi } from '../../../core/units/units.ts';
import type { Job } from '../../schema/job.ts';
import { layoutChanges } from './layouts.ts';
import { lensSteps } from './lens-steps.ts';
import { mountNumbers } from './numbers.ts';
import { printSteps } from './print-steps.ts';
import type { MountStep } from './step.ts';
import { gridOf } from '../printer.ts';
import { edgeWords } from '../../words/printer.ts';

export interface MountSetting {
  readonly unit: LengthUnit;
  /** The file type of the woven sheet. */
  readonly fileType: SheetFileType;
}

/** In the order of the work. */
export const mountSteps = (job: Job, { unit, fileType }: MountSetting): readonly MountStep[] => {
  const numbers = mountNumbers(job, unit);
  const changes = layoutChanges(job, numbers);
  return [...printSteps(job, numbers, fileType), ...lensSteps(job, numbers)].map((step) => ({
    cautions: [],
    isWarning: false,
    ...step,
    ...changes[step.id],
  }));
};

/** Names and values at the head of the page to pin up. */
export const mountFacts = (job: Job, unit: LengthUnit): readonly (readonly [string, string])[] => {
  const { size, distance, lens, pitch, mirrored } = mountNumbers(job, unit);
  const { acrossDpi, alongDpi, fedFirst } = gridOf(job);
  return [
    ['Print', size],
    ['Lens', lens],
    [job.provedPitch === undefined ? 'Pitch, nominal' : 'Pitch, proved', pitch],
    ['Ribs run', job.ribs],
    ['dpi', `${formatDensity(dpi(acrossDpi))} across × ${formatDensity(dpi(alongDpi))} along`],
    ['Fed first', edgeWords[fedFirst]],
    ...(mirrored ? ([['Print side', 'mirrored, on film laid from behind']] as const) : []),
    ['Seen from', distance],
  ];
};
