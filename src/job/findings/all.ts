/**
 * What the studio thinks will go wrong with this job. Pure: the page shows the list and carries the remedies
 * out. A finding says only what is certain from the job. They are sorted by severity, then in the order of
 * the work.
 */
import { zoneWidth } from '../../core/lens/traced.ts';
import { nameInText } from '../../core/names/shown.ts';
import { trimmed } from '../../core/units/format.ts';
import { mm } from '../../core/units/units.ts';
import { bleedFinding } from './bleed.ts';
import { arrivalFindings } from './arrivals.ts';
import type { Finding, Severity } from './finding.ts';
import { foundIn } from './finding.ts';
import { frameFindings } from './frames.ts';
import { gangFinding } from './gang.ts';
import { ghostFindings } from '../facts/ghost.ts';
import type { Job } from '../schema/job.ts';
import type { Clipped } from '../../core/weave/ghost.ts';
import { madeFinding } from '../facts/made.ts';
import type { MeasuredParallax, WholeParallax } from '../facts/parallax.ts';
import { parallaxFactsOf } from '../facts/parallax.ts';
import { parallaxFindings } from './parallax.ts';
import { pageFinding } from './page.ts';
import { exactnessOf, eyesApartOf } from '../facts/plan.ts';
import { pitchBudget } from '../facts/pitch.ts';
import type { KeptReading } from '../facts/pitch-history.ts';
import { pitchFindings } from './pitch.ts';
import { bareFinding } from './place.ts';
import { planFindings } from './plan.ts';
import { printerFinding } from './printer.ts';
import { printsDepth, showsDepth } from '../facts/prints-depth.ts';
import { recipeFindings } from './recipe.ts';
import { slotsRemedy } from './remedies.ts';
import { rigFinding } from './rig.ts';
import { dotsUnderRib, lensOf, pitchStanding } from '../facts/sheet.ts';
import { softenFinding } from '../facts/soften.ts';
import { tileFindings } from './tiles.ts';
import { tracedFinding } from './traced.ts';

/** A message about a file that arrived. */
export interface ArrivalNote {
  readonly id: string;
  readonly severity: 'problem' | 'note';
  readonly file?: string;
  readonly message: string;
}

/** What the findings need from the work under way; the page takes it from its store. */
export interface WorkFacts {
  /** Why a frame could not be prepared, by frame id. */
  readonly prepareFaults: ReadonlyMap<string, string>;
  readonly arrivalNotes: readonly ArrivalNote[];
  /** Pitches proved on this computer; left out while they are not known. */
  readonly pitchReadings?: readonly KeptReading[];
  /** Left out until it has been measured. */
  readonly parallax?: MeasuredParallax | undefined;
  /** Left out until it has been measured to the end. */
  readonly wholeParallax?: WholeParallax | undefined;
  /** What ghost removal cuts off, by picture; left out until it has been counted. */
  readonly ghostClipped?: readonly Clipped[] | undefined;
}

const slotsBeyondDots = (job: Job): Finding | undefined => {
  // Views of one scene share dots without loss, and more true ones even sharpen depth (tests/golden/more-views).
  if (printsDepth(job)) return undefined;
  const dots = dotsUnderRib(job);
  // A twentieth of a dot is within what paper and driver stretch.
  const room = Math.max(1, Math.floor(dots + 0.05));
  if (job.viewSlots <= room) return undefined;
  return {
    id: 'slots-beyond-dots',
    severity: 'caution',
    title: `${job.viewSlots} view slots on ${trimmed(dots, 2)} dots`,
    figure: `${trimmed(dots, 2)} dots under a rib`,
    reason:
      'Some slots must share a printed dot, so neighbouring pictures blend: flips ghost, moments run together.',
    remedy: `Use ${room} view slots, or a printer setting with more dots across.`,
    action: slotsRemedy(room),
  };
};

const nominalPitch = (job: Job): Finding | undefined => {
  if (pitchStanding(job) === 'proved') return undefined;
  const needed = pitchBudget(job);
  const { pitchUnsureLpi, budgetZones } = exactnessOf(job);
  const finding = {
    id: 'nominal-pitch',
    figure: `this print needs ±${trimmed(needed, 3)} LPI; a nominal pitch is known to about ±${trimmed(pitchUnsureLpi, 3)} LPI`,
    action: { label: 'Prove it with a strip', goTo: 'calibrate', part: 'strip' },
  } as const;
  if (pitchUnsureLpi <= needed)
    return {
      ...finding,
      severity: 'note',
      title: 'The pitch is nominal, which is enough for this size',
      reason:
        'A print so narrow bears as much as a nominal pitch is usually off. A lens sheet, paper or ink that is off by ' +
        'more shows as a drift from edge to edge.',
      remedy: 'If the first print drifts, print a pitch strip on this paper and read it.',
    };
  return {
    ...finding,
    severity: 'caution',
    title: 'The pitch is only nominal',
    reason:
      `Off by what it needs, a print of this size drifts ${trimmed(budgetZones, 2)} of a viewing zone from edge to ` +
      'edge; lens sheets, paper and ink are often off by more.',
    remedy: 'Print one pitch strip on this paper and read it under this lens before the sheet.',
  };
};

const zoneAndEyes = (job: Job): Finding | undefined => {
  const distance = mm(job.print.viewingDistanceMm);
  const zone = zoneWidth(lensOf(job), distance);
  const apart = eyesApartOf(job);
  if (job.ribs !== 'upright' || job.viewSlots < 3) return undefined;
  const depth = showsDepth(job);
  if (zone < apart)
    return {
      id: 'zone-narrower-than-eyes',
      severity: 'problem',
      title: 'The viewing zone is narrower than two eyes',
      figure: `${trimmed(zone, 0)} mm at ${trimmed(distance, 0)} mm`,
      reason: `Eyes are about ${trimmed(apart, 1)} mm apart: they fall into different zones, and ${depth ? 'depth turns inside out' : 'each sees another picture'}.`,
      remedy: 'View it from further away, or use a lens with a wider cone.',
    };
  if (!depth || zone / job.viewSlots <= apart) return undefined;
  return {
    id: 'eyes-in-one-view',
    severity: 'note',
    title: 'Both eyes see the same view',
    figure: `one view is ${trimmed(zone / job.viewSlots, 0)} mm wide`,
    reason: `Eyes are about ${trimmed(apart, 1)} mm apart, so there is no depth to be seen.`,
    remedy: 'For depth, use more view slots or a shorter viewing distance.',
  };
};

/** One finding for all files that came with a message; Frames tells them one by one. */
const arrived = (
  { arrivalNotes }: WorkFacts,
  severity: ArrivalNote['severity'],
): Finding | undefined => {
  const notes = arrivalNotes.filter((note) => note.severity === severity);
  const [first] = notes;
  if (first === undefined) return undefined;
  const title =
    severity === 'problem'
      ? `${notes.length} files could not be used`
      : `${notes.length} notes on the files that came in`;
  return {
    id: `arrival-${severity}`,
    severity,
    title: notes.length > 1 ? title : (first.file ?? 'About the frames that came in'),
    figure: '',
    reason: `${notes.length > 1 && first.file !== undefined && !first.message.includes(first.file) ? `${nameInText(first.file)}: ` : ''}${first.message}`,
    remedy: notes.length > 1 ? 'Frames names each of them.' : '',
    action: { label: 'Go to Frames', goTo: 'frames', part: 'frames' },
    toldOn: 'frames',
  };
};

const fromWork = (job: Job, work: WorkFacts): Finding[] => [
  ...[...work.prepareFaults].map(([id, message]): Finding => {
    const name = job.frames.find((frame) => frame.id === id)?.name;
    return {
      id: `prepare-${id}`,
      severity: 'problem',
      title:
        name === undefined
          ? 'A frame could not be prepared'
          : `${nameInText(name)} could not be prepared`,
      figure: '',
      reason: message,
      remedy: 'Add the frame again, or take it out of the sequence.',
      action: { label: 'Go to Frames', goTo: 'frames', part: 'frames' },
    };
  }),
  ...foundIn([arrived(work, 'problem'), arrived(work, 'note')]),
];

const rank: Readonly<Record<Severity, number>> = { problem: 0, caution: 1, note: 2 };

export const findings = (job: Job, work: WorkFacts): Finding[] =>
  foundIn([
    ...fromWork(job, work),
    ...planFindings(job, parallaxFactsOf(job, work.parallax)),
    printerFinding(job),
    pageFinding(job),
    bleedFinding(job),
    bareFinding(job),
    gangFinding(job),
    ...tileFindings(job),
    rigFinding(job),
    slotsBeyondDots(job),
    zoneAndEyes(job),
    ...frameFindings(job),
    ...recipeFindings(job),
    ...arrivalFindings(job),
    madeFinding(job),
    ...parallaxFindings(job, work.parallax, work.wholeParallax),
    softenFinding(job, work.wholeParallax),
    ...ghostFindings(job, work.ghostClipped),
    nominalPitch(job),
    ...pitchFindings(job, work.pitchReadings ?? []),
    tracedFinding(job),
  ]).sort((a, b) => rank[a.severity] - rank[b.severity]);
