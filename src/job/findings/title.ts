/** What goes wrong with a title, each with its remedy. */
import { SHARP_LENTICULES, SOFT_LENTICULES } from '../../core/plan/depth.ts';
import { sayLength, trimmed } from '../../core/units/format.ts';
import { titleFrameOf } from '../facts/sheet.ts';
import { setTitle, smallestCapMm, typedOf, typedPastMm } from '../facts/title.ts';
import type { Job } from '../schema/job.ts';
import { sayInstead } from '../words/faces.ts';
import type { Finding } from './finding.ts';
import { foundIn } from './finding.ts';

const inFrames = { label: 'Go to Frames', goTo: 'frames', part: 'frames' } as const;

const ofDepth = (job: Job): Finding | undefined => {
  const { title } = job;
  if (title === undefined || titleFrameOf(job) === undefined || title.step === 0) return undefined;
  if (job.ribs === 'lying')
    return {
      id: 'title-lying',
      severity: 'note',
      title: 'Under lying ribs the title has no depth',
      figure: 'ribs lying',
      reason: 'Both eyes see the same view, so it stands on the print, wherever it was put.',
      remedy: 'Let the ribs stand for depth.',
    };
  if (Math.abs(title.step) <= SHARP_LENTICULES) return undefined;
  const soft = Math.abs(title.step) <= SOFT_LENTICULES;
  const sharp = Math.sign(title.step) * SHARP_LENTICULES;
  return {
    id: 'title-too-deep',
    severity: soft ? 'caution' : 'problem',
    title: `The title stands ${soft ? 'beyond the sharp range' : 'where it breaks up'}`,
    figure: `${trimmed(Math.abs(title.step), 2)} ribs per view`,
    reason: soft
      ? 'What moves more than one rib per view is soft, and letters suffer first.'
      : 'Beyond two ribs per view edges stand apart: letters show several times.',
    remedy: 'Bring it to one rib per view or less.',
    action: {
      label: 'Bring it into the sharp range',
      undoLabel: 'title',
      edit: (current) =>
        current.title === undefined
          ? current
          : setTitle(current, { ...current.title, step: sharp }),
    },
  };
};

/** Less of a capital’s height is within what a person types. */
const NEARLY = 0.98;

const ofSize = (job: Job): Finding | undefined => {
  const typed = typedOf(job);
  const least = smallestCapMm(job);
  if (typed === undefined || typed.capMm >= NEARLY * least) return undefined;
  return {
    id: 'title-too-small',
    severity: 'caution',
    title: 'The title’s letters are too small for this lens',
    figure: `${sayLength(typed.capMm, 'mm')} high; ${sayLength(least, 'mm')} are needed`,
    reason: 'Each rib shows one place of a view, and a letter needs seven of them in its height.',
    remedy: 'Make the letters larger, or choose a finer lens.',
    action: inFrames,
    toldOn: 'frames',
  };
};

/** Of the room around the letters in their picture, mm. */
const ROOM_MM = 0.5;

const ofPlace = (job: Job): Finding | undefined => {
  const past = typedPastMm(job);
  if (past <= ROOM_MM) return undefined;
  return {
    id: 'title-past-print',
    severity: 'caution',
    title: 'Part of the title may be cut off',
    figure: `up to ${sayLength(past, 'mm')} past the print`,
    reason: 'It lies, or slides by its depth, over the edge of the print.',
    remedy: 'Move it to the middle, make it smaller, or let it stand nearer to the print.',
    action: inFrames,
    toldOn: 'frames',
  };
};

const ofFace = (job: Job): Finding | undefined => {
  const typed = typedOf(job);
  const instead = typed === undefined ? undefined : sayInstead(typed);
  if (typed === undefined || instead === undefined) return undefined;
  return {
    id: 'title-other-face',
    severity: 'note',
    title: 'The title is in another typeface than the one chosen',
    figure: typed.face,
    reason: instead,
    remedy: 'Look whether you like it as it is, or choose a typeface that this device has.',
    action: inFrames,
    toldOn: 'frames',
  };
};

export const titleFindings = (job: Job): Finding[] =>
  foundIn([ofDepth(job), ofSize(job), ofPlace(job), ofFace(job)]);
