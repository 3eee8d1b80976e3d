/** What the trace changed in a job that was kept by a studio before it. */
import { opticalGap, paraxialPitch, paraxialZone } from '../../core/lens/lens.ts';
import { zoneWidth } from '../../core/lens/traced.ts';
import { trimmed } from '../../core/units/format.ts';
import type { Mm } from '../../core/units/units.ts';
import { mm, mmToLpi } from '../../core/units/units.ts';
import { lensOf, sheetSpecOf, viewingPitchOf } from '../facts/sheet.ts';
import type { Job } from '../schema/job.ts';
import type { Finding } from './finding.ts';

/** The woven pitch as it was: a proved one carried from its distance by t / n, else the nominal one by t / n. */
const pitchBefore = (job: Job): Mm => {
  const lens = lensOf(job);
  const distance = mm(job.print.viewingDistanceMm);
  if (job.provedPitch === undefined) return paraxialPitch(lens, distance);
  const { viewingPitchMm, readFromMm } = job.provedPitch;
  const gap = opticalGap(lens);
  return mm((viewingPitchMm * (1 + gap / distance)) / (1 + gap / readFromMm));
};

/** Only where something was planned or printed already: an empty job has nothing that could differ. */
const hasWork = ({ frames, provedPitch, pitchStrip, trials }: Job): boolean =>
  frames.length > 0 ||
  provedPitch !== undefined ||
  pitchStrip?.woven !== undefined ||
  trials !== undefined;

export const tracedFinding = (job: Job): Finding | undefined => {
  if (job.traced === true || !hasWork(job)) return undefined;
  const lens = lensOf(job);
  const distance = mm(job.print.viewingDistanceMm);
  const { viewingPitchMm, lensPitchMm } = sheetSpecOf(job);
  const lpi = (pitch: Mm) => trimmed(mmToLpi(pitch), 3);
  const zone = (width: Mm) => trimmed(width, 0);
  return {
    id: 'now-traced',
    severity: 'note',
    title: 'This job is now planned by the ray trace',
    figure:
      `woven pitch ${lpi(pitchBefore(job))} → ${lpi(viewingPitchOf(job))} LPI, ` +
      `zone ${zone(paraxialZone(lens, distance))} → ${zone(zoneWidth(lens, distance))} mm, ` +
      `picture ${trimmed(100 * (viewingPitchMm / lensPitchMm - 1), 3)} % larger`,
    reason:
      'It was kept by an earlier studio, which took pitch and zone from t / n and wove the picture a ' +
      'little too small. Cone, views and what mixes are traced now too.' +
      (job.provedPitch === undefined
        ? ''
        : ' The proved pitch is as it was read; only its carrying to another distance has changed.'),
    remedy:
      'A print that is right stays right. A sheet woven from now on differs from earlier ones by these figures: ' +
      'do not lay a new tile or copy beside an old one.',
    action: {
      label: 'Noted',
      undoLabel: 'note on the ray trace',
      edit: (now) => ({ ...now, traced: true }),
    },
  };
};
