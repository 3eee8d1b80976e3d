/** The job's ghosts: the wedge to print, the ghost removal in force, and what it costs. */
import { mm, MM_PER_INCH, wholeDots, dpi } from '../../core/units/units.ts';
import type { Clipped, GhostTrim } from '../../core/weave/ghost.ts';
import type { WedgeSpec } from '../../core/weave/ghost-wedge.ts';
import { leakOfPatch, PATCHES } from '../../core/weave/ghost-wedge.ts';
import { WEDGE_ALONG_MM, WEDGE_SIDES_MM } from '../../core/weave/ghost-wedge-layout.ts';
import { trimmed } from '../../core/units/format.ts';
import type { Finding } from '../findings/finding.ts';
import type { GhostTrimOfJob, GhostWedge } from '../schema/ghost.ts';
import type { Job } from '../schema/job.ts';
import { sayEased } from './ghost-ease.ts';
import { paperOf } from './pitch.ts';
import { acrossMm, viewingPitchOf } from './sheet.ts';
import { gridOf } from './printer.ts';

export const STRONGEST = 0.3;

const percent = (share: number): string => `${trimmed(100 * share, 1)} %`;

/** Wider patches show nothing more. */
const MOST_PATCH_MM = 120;
const LEAST_PATCH_MM = 20;

/**
 * How many slots away the picture lies whose ghost shows: the next picture of a flip, else the next
 * slot.
 */
export const reachOf = (job: Job): number => {
  const chosen = job.recipe?.kind === 'flip' ? job.recipe.pictures.filter((id) => id !== '') : [];
  return chosen.length < 2 ? 1 : Math.max(1, Math.floor(job.viewSlots / chosen.length));
};

const settingOf = (job: Job) => ({
  viewSlots: job.viewSlots,
  reachSlots: reachOf(job),
  lensPitchMm: job.lens.pitchMm,
  acrossDpi: gridOf(job).acrossDpi,
  ribs: job.ribs,
  columns: job.columns,
});

/** Whether a wedge, or the ghost removal read from it, is for this lens, printer setting and number of slots. */
export const settingFits = (job: Job, kept: ReturnType<typeof settingOf>): boolean =>
  Object.entries(settingOf(job)).every(
    ([field, value]) => kept[field as keyof typeof kept] === value,
  );

export type WedgePlan =
  | { readonly ok: true; readonly spec: WedgeSpec; readonly patchMm: number }
  | { readonly ok: false; readonly message: string };

const patchDotsOf = (job: Job): number => {
  const { widthMm, heightMm, marginMm } = paperOf(job);
  const room = (job.ribs === 'upright' ? widthMm : heightMm) - 2 * marginMm - WEDGE_SIDES_MM - 0.5;
  const wide = Math.min(acrossMm(job), room, MOST_PATCH_MM);
  return wholeDots(mm(Math.max(0, wide)), dpi(gridOf(job).acrossDpi));
};

const refused = (message: string): WedgePlan => ({ ok: false, message });

/** The wedge for this job, or why it cannot be woven. @param strongest leak removed in the last patch. */
export const wedgePlanOf = (job: Job, strongest: number): WedgePlan => {
  if (job.viewSlots < 2)
    return refused('One view slot has no neighbour to leak: set 2 or more View slots.');
  const { widthMm, heightMm, marginMm } = paperOf(job);
  const along = (job.ribs === 'upright' ? heightMm : widthMm) - 2 * marginMm;
  const patchDots = patchDotsOf(job);
  const patchMm = (patchDots * MM_PER_INCH) / gridOf(job).acrossDpi;
  if (along < WEDGE_ALONG_MM || patchMm < Math.min(LEAST_PATCH_MM, acrossMm(job)))
    return refused(
      `The wedge takes ${Math.ceil(WEDGE_ALONG_MM)} mm along the ribs: choose larger paper, or lay it the other way, in the pitch strip’s fields.`,
    );
  const { acrossDpi, alongDpi } = gridOf(job);
  return {
    ok: true,
    patchMm,
    spec: {
      kind: 'ghost-wedge',
      acrossDpi,
      alongDpi,
      ribs: job.ribs,
      viewingPitchMm: viewingPitchOf(job),
      viewSlots: job.viewSlots,
      columns: job.columns,
      reachSlots: reachOf(job),
      strongest,
      patchDots,
      readFromMm: job.print.viewingDistanceMm,
    },
  };
};

/** Keeps the wedge that was woven: a patch number typed later names one of its patches. */
export const keepWedge = (job: Job, strongest: number, wovenOn: string): Job => ({
  ...job,
  ghostWedge: { ...settingOf(job), strongest, wovenOn },
});

/** Sets the ghost removal of a patch. @param patch 1 … 16; a half lies between two. */
export const takePatch = (job: Job, wedge: GhostWedge, patch: number): Job => {
  const { strongest, wovenOn: _, ...setting } = wedge;
  return {
    ...job,
    ghostTrim: {
      ...setting,
      leak: Number(leakOfPatch(strongest, patch).toFixed(6)),
      plusMinus: Number((strongest / (PATCHES - 1) / 2).toFixed(6)),
      contrast: job.ghostTrim?.contrast ?? 'lowered',
    },
  };
};

/** Sets ghost removal by a leak that was worked out, not read. @param leak 0 … 0.45 */
export const trimByLeak = (job: Job, leak: number): Job => ({
  ...job,
  ghostTrim: {
    ...settingOf(job),
    leak: Number(leak.toFixed(6)),
    contrast: job.ghostTrim?.contrast ?? 'lowered',
  },
});

export const withoutTrim = ({ ghostTrim: _, ...job }: Job): Job => job;

/** Ghost removal in the weave's terms; undefined where none is in force. */
export const trimOf = ({ ghostTrim, viewSlots }: Job): GhostTrim | undefined =>
  ghostTrim === undefined || ghostTrim.leak === 0 || viewSlots < 2
    ? undefined
    : {
        leak: ghostTrim.leak,
        reachSlots: Math.min(ghostTrim.reachSlots, Math.max(1, viewSlots - 1)),
        lift: ghostTrim.contrast === 'lowered' ? ghostTrim.leak : 0,
      };

/** Sentences on the ghost removal and the lamp that a sheet is woven for; empty without them. */
export const madeForWords = (job: Job): string => {
  const trim = trimOf(job);
  const parts = [
    ...(trim === undefined ? [] : [`Ghosts of ${percent(trim.leak)} are removed.`]),
    ...(sayEased(job) === '' ? [] : [sayEased(job)]),
    ...(job.lamp === undefined
      ? []
      : [
          `Made for a lamp behind it: density ${trimmed(job.lamp.density, 2)}, ` +
            `warmth ${trimmed(job.lamp.warmth, 2)}.`,
        ]),
  ];
  return parts.join(' ');
};

/** How light plain white and plain black are after ghost removal, as shares of the paper's light. */
export const leftByTrim = ({ leak, contrast }: Pick<GhostTrimOfJob, 'leak' | 'contrast'>) => ({
  white: 1 / (1 + leak),
  black: contrast === 'lowered' ? leak / (1 + leak) : 0,
});

/** Shares of the samples that are clipped: at black, at white, and both. */
export const clippedShare = (clipped: readonly Clipped[]) => {
  const sum = (field: keyof Clipped) => clipped.reduce((all, one) => all + one[field], 0);
  const samples = Math.max(1, sum('samples'));
  return {
    low: sum('low') / samples,
    high: sum('high') / samples,
    all: (sum('low') + sum('high')) / samples,
  };
};

/** When more than this share is clipped, ghosts remain in more than a few highlights. */
const MUCH = 0.01;

export const ghostFindings = (job: Job, clipped: readonly Clipped[] | undefined): Finding[] => {
  const { ghostTrim } = job;
  if (ghostTrim === undefined || ghostTrim.leak === 0) return [];
  const share = clipped === undefined ? 0 : clippedShare(clipped).all;
  const found: Finding[] = [];
  if (!settingFits(job, ghostTrim))
    found.push({
      id: 'ghost-setting',
      severity: 'caution',
      title: 'The ghost removal was read for another setting',
      figure: `${percent(ghostTrim.leak)} at ${ghostTrim.viewSlots} slots`,
      reason:
        'Lens pitch, dots across, view slots, columns or the pictures of the flip have changed since; ' +
        'another leak would leave ghosts, or their negatives.',
      remedy: 'Weave another ghost wedge and read it, or turn ghost removal off.',
      action: { label: 'Turn ghost removal off', undoLabel: 'ghost removal', edit: withoutTrim },
      otherAction: { label: 'Weave a wedge', goTo: 'calibrate', part: 'more' },
    });
  if (ghostTrim.contrast === 'kept' && share > MUCH)
    found.push({
      id: 'ghost-clipped',
      severity: 'caution',
      title: 'Ghosts stay where their removal is clipped',
      figure: `${percent(share)} of all samples`,
      reason:
        'More light is to be taken away than the picture has there, or more given than paper has.',
      remedy: `Lower the contrast: black then shows as ${percent(leftByTrim({ leak: ghostTrim.leak, contrast: 'lowered' }).black)} of the paper’s light and nothing clips.`,
      action: {
        label: 'Lower the contrast',
        undoLabel: 'ghost removal contrast',
        edit: (now) =>
          now.ghostTrim === undefined
            ? now
            : { ...now, ghostTrim: { ...now.ghostTrim, contrast: 'lowered' } },
      },
    });
  return found;
};
