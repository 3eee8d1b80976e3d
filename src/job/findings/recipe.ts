/** What goes wrong with a recipe under this lens, each with its remedy. */
import { mostGuardSlots } from '../../core/frames/flip-ahead.ts';
import {
  advisedGuardSlots,
  ghostBeyond,
  GHOST_SHARE,
  setsOf,
  swayFrames,
} from '../../core/frames/recipes.ts';
import { trimmed } from '../../core/units/format.ts';
import type { Finding } from './finding.ts';
import { foundIn } from './finding.ts';
import type { Job } from '../schema/job.ts';
import { lensFacts } from '../facts/plan.ts';
import type { Change, Flip } from '../edits/recipe.ts';
import { chooseRecipe, editFlip, layoutOf, splitInHalves } from '../edits/recipe.ts';
import { sequenceOf } from '../facts/sheet.ts';
import { titleFindings } from './title.ts';

const percent = (share: number) => `${trimmed(100 * share, share < 0.1 ? 1 : 0)} %`;
const slots = (count: number) => `${count} guard slot${count === 1 ? '' : 's'}`;
const inFrames = { label: 'Go to Frames', goTo: 'frames', part: 'frames' } as const;

const flipPictures = (job: Job, flip: Flip): Finding | undefined => {
  const known = flip.pictures.filter((id) => sequenceOf(job).some((frame) => frame.id === id));
  const missing = flip.pictures.length - known.length;
  if (missing > 0)
    return {
      id: 'flip-picture-missing',
      severity: 'problem',
      title: 'A picture of the flip is not chosen',
      figure: `${known.length} of ${flip.pictures.length} pictures`,
      reason: 'The slots are filled without it, so the flip has one turn less.',
      remedy: 'Choose a frame for each picture, or ask for fewer pictures.',
      action: inFrames,
    };
  if (new Set(known).size === known.length) return undefined;
  return {
    id: 'flip-same-picture',
    severity: 'caution',
    title: 'Two pictures of the flip are the same frame',
    figure: `${new Set(known).size} different of ${known.length}`,
    reason: 'Between two pictures that are the same nothing flips.',
    remedy: 'Choose another frame for one of them.',
    action: inFrames,
  };
};

const flipGuards = (job: Job, flip: Flip): Finding | undefined => {
  const facts = lensFacts(job);
  if (facts === undefined) return undefined;
  const most = mostGuardSlots(layoutOf(flip, job.viewSlots));
  const guards = Math.min(flip.guardSlots, most);
  const ghost = ghostBeyond(facts.matrix, guards);
  if (ghost <= GHOST_SHARE) return undefined;
  const advised = advisedGuardSlots(facts.matrix);
  const set = Math.min(advised, most);
  const helps = set > guards;
  return {
    id: 'flip-guard-narrow',
    severity: 'caution',
    title: 'The pictures of the flip ghost into one another',
    figure: `up to ${percent(ghost)} of the next picture`,
    reason: `This lens and printer spread a view over its neighbours; ${slots(guards)} between pictures do not keep them apart.`,
    remedy:
      advised <= most
        ? `Use ${slots(advised)}: the next picture then stays under ${percent(GHOST_SHARE)} (our limit, no source).`
        : `${slots(advised)} would, but ${job.viewSlots} view slots have room for ${most}: use fewer pictures, more view slots, or pictures that are alike in light.`,
    ...(helps
      ? {
          action: {
            label: `Use ${slots(set)}`,
            undoLabel: 'guard slots',
            edit: (current: Job) => editFlip(current, { guardSlots: set }),
          },
        }
      : {}),
  };
};

const guardsGiveWay = (job: Job, flip: Flip): Finding | undefined => {
  const most = mostGuardSlots(layoutOf(flip, job.viewSlots));
  if (flip.guardSlots <= most) return undefined;
  return {
    id: 'flip-guard-room',
    severity: 'note',
    title: 'Not all guard slots have room',
    figure: `${most} of ${flip.guardSlots} between pictures`,
    reason: `Each of ${flip.pictures.length} pictures keeps a slot of its own among ${job.viewSlots}.`,
    remedy: 'Use more view slots or fewer guard slots.',
    action: {
      label: `Use ${slots(most)}`,
      undoLabel: 'guard slots',
      edit: (current) => editFlip(current, { guardSlots: most }),
    },
  };
};

const ofSway = (job: Job): Finding | undefined => {
  const shown = new Set(swayFrames(sequenceOf(job).length, job.viewSlots)).size;
  if (shown < 3)
    return {
      id: 'sway-few-frames',
      severity: 'caution',
      title: 'Too few frames to run there and back',
      figure: `${shown} ${shown === 1 ? 'frame' : 'frames'}`,
      reason: 'There and back through fewer than three frames is a flip, not a movement.',
      remedy: 'Add frames or view slots, or make it a flip.',
      action: {
        label: 'Make it a flip',
        undoLabel: 'recipe',
        edit: (current) => chooseRecipe(current, 'flip'),
      },
    };
  if (job.ribs !== 'upright') return undefined;
  return {
    id: 'sway-turns-depth',
    severity: 'note',
    title: 'On the way back, depth is inside out',
    figure: 'half of the zone',
    reason:
      'Where the frames run backward the right eye sees an earlier one than the left. Frames from ' +
      'cameras side by side then show depth reversed; moments of a movement do not mind.',
    remedy:
      'For depth, take the even spread; for a movement, lay the ribs so that both eyes agree.',
  };
};

const ofChange = (job: Job, change: Change): Finding | undefined => {
  const { first, second } = setsOf(
    sequenceOf(job).map(({ id }) => id),
    change.second,
  );
  if (first.length === second.length) return undefined;
  const oneEmpty = first.length === 0 || second.length === 0;
  return {
    id: 'change-sets-unequal',
    severity: oneEmpty ? 'problem' : 'caution',
    title: oneEmpty ? 'One set of the change is empty' : 'The two sets are of unequal size',
    figure: `${first.length} and ${second.length} frames`,
    reason: oneEmpty
      ? 'There is nothing to cross into, so the frames are spread evenly.'
      : 'A slot then mixes pictures from different cameras, and what is near shows twice.',
    remedy: 'Render both sets from the same cameras, and put each frame into its set.',
    action:
      sequenceOf(job).length >= 2 && sequenceOf(job).length % 2 === 0
        ? { label: 'Split in the middle', undoLabel: 'sets', edit: splitInHalves }
        : inFrames,
  };
};

const ofAnimation = (job: Job): Finding | undefined =>
  job.ribs === 'upright'
    ? {
        id: 'animation-upright',
        severity: 'note',
        title: 'Two eyes see different moments',
        figure: 'ribs upright',
        reason:
          'The eyes look at an upright rib from two sides, each at its own view. What moved in ' +
          'between shows double, or as depth that is not there.',
        remedy: 'Lay the ribs: tilting the print then shows both eyes the same moment.',
      }
    : undefined;

const ofRecipe = (job: Job): readonly (Finding | undefined)[] => {
  const { recipe } = job;
  if (recipe === undefined || sequenceOf(job).length === 0) return [];
  if (recipe.kind === 'flip')
    return [flipPictures(job, recipe), flipGuards(job, recipe), guardsGiveWay(job, recipe)];
  if (recipe.kind === 'sway') return [ofSway(job)];
  return [recipe.kind === 'change' ? ofChange(job, recipe) : ofAnimation(job)];
};

export const recipeFindings = (job: Job): Finding[] =>
  foundIn([...ofRecipe(job), ...titleFindings(job)]);
