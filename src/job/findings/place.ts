/** Pictures that were placed so that the print shows paper. */
import { nameInText } from '../../core/names/shown.ts';
import { setPlace } from '../edits/set-place.ts';
import { bareMm, changedPlace, zoomToFill } from '../facts/place.ts';
import { slotPicturesOf } from '../facts/slot-pictures.ts';
import type { Frame, Job } from '../schema/job.ts';
import { BARE_MM, sayBare, sayPercent } from '../words/bare.ts';
import type { Finding, Remedy } from './finding.ts';

type Change = Extract<Remedy, { readonly undoLabel: string }>;

/** A zoom is rounded up to this, so that nothing is left by rounding. */
const ZOOM_STEP = 0.001;
const MOST_ZOOM = 20;

/** Zooms it about the middle until it fills the print; undefined where that is no way. */
export const bareRemedy = (job: Job, frame: Frame): Change | undefined => {
  const by = zoomToFill(job, frame);
  if (by === undefined) return undefined;
  const zoom = frame.place?.zoom ?? 1;
  const to = Math.ceil((zoom * by) / ZOOM_STEP) * ZOOM_STEP;
  if (to > MOST_ZOOM) return undefined;
  return {
    label: `Zoom to ${sayPercent(to)}`,
    undoLabel: `placing ${nameInText(frame.name)}`,
    edit: (now) => setPlace(now, frame.id, changedPlace(now, frame, { zoomBy: to / zoom })),
  };
};

/** The widest bare edge that a placed picture in the slots leaves. */
export const bareFinding = (job: Job): Finding | undefined => {
  const bared = slotPicturesOf(job)
    .pictures.filter(({ frame, ground }) => ground === undefined && frame.place !== undefined)
    .map(({ frame }) => ({ frame, bare: bareMm(job, frame) }))
    .map((one) => ({ ...one, most: Math.max(...Object.values(one.bare)) }))
    .filter(({ most }) => most > BARE_MM)
    .sort((a, b) => b.most - a.most);
  const [worst] = bared;
  if (worst === undefined) return undefined;
  const { frame, bare } = worst;
  const action = bareRemedy(job, frame);
  const others = bared.length - 1;
  return {
    id: 'placed-bare',
    severity: 'caution',
    title: `${nameInText(frame.name)} leaves paper bare`,
    figure: sayBare(bare, 'mm') ?? '',
    reason: `White paper shows beside it${others === 0 ? '' : `, and beside ${others} more`}.`,
    remedy: 'Zoom or shift it until it fills the print.',
    action: action ?? { label: 'Go to Frames', goTo: 'frames', part: 'frames' },
  };
};
