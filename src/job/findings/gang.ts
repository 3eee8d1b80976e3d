/** Whether several prints fit on one lens sheet. */
import { trimmed } from '../../core/units/format.ts';
import type { Finding } from './finding.ts';
import { gangGridOf, gangOf, ownMember } from '../facts/gang.ts';
import type { Job } from '../schema/job.ts';

export const gangFinding = (job: Job): Finding | undefined => {
  if (job.gang?.on !== true) return undefined;
  const grid = gangGridOf(job);
  const own = ownMember(job);
  const across = own.ribs > grid.ribs;
  if (!across && own.alongMm * 1000 <= grid.alongUm + 0.5) return undefined;
  const { lensAcrossMm, lensAlongMm, edgeMm } = gangOf(job);
  return {
    id: 'gang-print-too-large',
    severity: 'caution',
    title: 'The print is larger than its lens sheet',
    figure: across
      ? `${own.ribs} ribs on ${grid.ribs}`
      : `${trimmed(own.alongMm, 1)} mm on ${trimmed(grid.alongUm / 1000, 1)} mm`,
    reason:
      `Of a lens sheet of ${trimmed(lensAcrossMm, 1)} × ${trimmed(lensAlongMm, 1)} mm, ` +
      `${trimmed(edgeMm, 1)} mm stay free at each edge: not one print finds room.`,
    remedy: 'Use a larger lens sheet, a smaller free edge or a smaller print.',
    action: { label: 'Go to Mount', goTo: 'mount', part: 'several' },
  };
};
