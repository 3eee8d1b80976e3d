/** A flip on a wall that flashes for people who walk past. */
import { MOST_FLASHES } from '../../core/plan/walk-past.ts';
import { trimmed } from '../../core/units/format.ts';
import { isWalkedPast, passingOf } from '../facts/walk-past.ts';
import { lensWishOf } from '../facts/lens-wish.ts';
import type { Job } from '../schema/job.ts';
import type { Finding } from './finding.ts';

export const walkPastFinding = (job: Job): Finding | undefined => {
  if (!isWalkedPast(job)) return undefined;
  const passing = passingOf(job);
  if (passing?.flashes !== true) return undefined;
  const { nearMm } = lensWishOf(job);
  return {
    id: 'flashes-walked-past',
    severity: 'caution',
    title: 'The flip may flash for people who walk past',
    figure: `up to ${trimmed(passing.flashesASecond, 1)} flashes a second from ${trimmed(nearMm, 0)} mm; ${MOST_FLASHES} are allowed`,
    reason:
      'At walking pace a light and a dark picture take turns faster than three times a second, ' +
      'which can harm photosensitive people (WCAG 2.2, 2.3.1).',
    remedy: `Keep people at least ${trimmed(Math.ceil(passing.leastDistanceMm), 0)} mm away, use a lens with a wider cone, fewer pictures, or pictures alike in light.`,
    action: { label: 'Go to Plan', goTo: 'plan', part: 'which' },
  };
};
