/** Whether the scene reaches beyond what the lens can show sharp from these cameras. */
import { rigRange } from '../../core/plan/rig.ts';
import { trimmed } from '../../core/units/format.ts';
import type { Finding } from './finding.ts';
import type { Job } from '../schema/job.ts';
import { showsDepth } from '../facts/prints-depth.ts';
import { keyDistanceOf, rigGainThatFits, rigSettingOf, sceneUnitOf } from '../facts/rig.ts';
import { depthGainRemedy } from './remedies.ts';

export const rigFinding = (job: Job): Finding | undefined => {
  const { near = 0, far = 0 } = job.rig ?? {};
  if (!showsDepth(job) || near >= keyDistanceOf(job)) return undefined;
  const { front, behind } = rigRange(rigSettingOf(job), 1);
  if (near <= front * (1 + 1e-9) && far <= behind * (1 + 1e-9)) return undefined;
  const gain = rigGainThatFits(job);
  if (gain === undefined) return undefined;
  const unit = sceneUnitOf(job).name;
  const said = (value: number) => (Number.isFinite(value) ? trimmed(value, 3) : 'any distance');
  return {
    id: 'rig-too-deep',
    severity: 'caution',
    title: 'The scene to render is deeper than the lens can show',
    figure: `${said(near)} ${unit} in front, ${said(far)} ${unit} behind`,
    reason: `These cameras keep it sharp from ${said(front)} in front of the key plane to ${said(behind)} behind it.`,
    remedy: `A depth gain of ${gain} keeps everything sharp; or move the key plane, or use more view slots.`,
    action: depthGainRemedy(gain),
  };
};
