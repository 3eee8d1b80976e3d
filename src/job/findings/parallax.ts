/** Findings from measured motion, each with what can be done about it. */
import { nameInText } from '../../core/names/shown.ts';
import { trimmed } from '../../core/units/format.ts';
import { reverseFrames, setKeyShift, setSoften, takeMiddleFrames } from '../edits/consequences.ts';
import type { Finding, Remedy } from './finding.ts';
import { foundIn } from './finding.ts';
import type { Job } from '../schema/job.ts';
import type { MeasuredParallax, ParallaxFacts, WholeParallax } from '../facts/parallax.ts';
import { parallaxFactsOf } from '../facts/parallax.ts';
import { depthGainOf } from '../facts/plan.ts';
import { showsDepth } from '../facts/prints-depth.ts';
import { gainKeepingSharp } from '../facts/rig.ts';
import { sequenceOf } from '../facts/sheet.ts';
import { softenStanding } from '../facts/soften.ts';

const percent = (share: number) => `${trimmed(100 * share, 0)} %`;
const ribs = (value: number) => `${trimmed(value, 2)} ribs`;

/** Shares of the places; below them nothing is said, because a few matches are always false. */
const BROKEN_WORTH_SAYING = 0.02;
const SOFT_WORTH_SAYING = 0.1;
/** A quarter of a lenticule a frame up or down is seen as trembling (ours, no source). */
const RISE_LENTICULES = 0.25;
/** A step a quarter longer or shorter than the rest is seen as a jerk (ours, no source). */
const UNEVEN = 0.25;
const SLIP_LENTICULES = 0.2;

/** Lenticules. In a smaller range of depths (a flip, an animation) the ground tells nothing. */
const GROUND_NEEDS = 0.3;

const wrongSide = ({ order, spread }: ParallaxFacts): Finding | undefined => {
  if (order?.runs !== 'reversed') return undefined;
  if (order.by === 'ground' && spread.behind - spread.front < GROUND_NEEDS) return undefined;
  const sure = order.by === 'edges';
  return {
    id: 'order-reversed',
    severity: sure ? 'problem' : 'caution',
    title: sure ? 'The frames run from the wrong side' : 'The frames may run from the wrong side',
    figure: sure
      ? `${percent(order.share)} of ${order.witnesses} edges say so`
      : 'likely, not certain',
    reason: sure
      ? 'What moves as if it lay behind covers what moves as if it lay in front: seen through the lens, depth turns inside out.'
      : 'The foot of the picture moves as if it lay behind what stands above it, and in most pictures it is the nearer. Printed so, depth turns inside out.',
    remedy: 'Turn the order round: the first frame must be the leftmost camera’s.',
    action: {
      label: 'Mend: reverse the order',
      undoLabel: 'reversed order',
      edit: reverseFrames,
    },
  };
};

/** The slide that lays the depth evenly about the print, to hundredths. */
const middleShift = (job: Job, { spread }: ParallaxFacts): number =>
  Math.round(100 * ((job.keyShift ?? 0) + (spread.front + spread.behind) / 2)) / 100;

const soften: Remedy = {
  label: 'Soften what lies beyond',
  undoLabel: 'softening',
  edit: (job) => setSoften(job, 1),
};

/** How the places beyond the sharp range look, softened or not. */
const beyondWords = (job: Job, broken: boolean, softened: boolean) => {
  if (softened)
    return {
      severity: 'note',
      title: 'What lies beyond the sharp range is softened',
      reason: `Its fine detail is taken out at ${percent(job.soften ?? 0)}, so that edges blur where they would double; nothing brings it back sharp but less depth.`,
    } as const;
  return {
    severity: broken ? 'caution' : 'note',
    title: broken ? 'Parts of the picture break up' : 'Parts of the picture are soft',
    reason:
      'The lens cannot show sharp what moves more than one rib per view; beyond two, edges double.',
    ...(job.ribs === 'upright' ? { otherAction: soften } : {}),
  } as const;
};

const beyondSharp = (job: Job, facts: ParallaxFacts, softened: boolean): Finding | undefined => {
  const { spread } = facts;
  const broken = spread.broken > BROKEN_WORTH_SAYING;
  if (!broken && spread.soft <= SOFT_WORTH_SAYING) return undefined;
  const most = Math.max(Math.abs(spread.front), Math.abs(spread.behind));
  const half = (spread.behind - spread.front) / 2;
  const shift = middleShift(job, facts);
  // With a lower gain the key plane stays where it is: what moves most decides, not half of the range.
  const gain = gainKeepingSharp(depthGainOf(job), most);
  const base = {
    id: 'parallax-beyond-sharp',
    figure: `${percent(spread.broken)} broken, ${percent(spread.soft)} soft, up to ${ribs(most)} per view`,
    ...beyondWords(job, broken, softened),
  } as const;
  const fewer = `Or lower the depth gain to ${gain} and render again.`;
  if (half < 0.8 * most)
    return {
      ...base,
      remedy: `Move the key plane to the middle of the depth: then at most ${ribs(half)} per view. ${fewer}`,
      action: {
        label: 'Move the key plane',
        undoLabel: 'key plane',
        edit: (current) => setKeyShift(current, shift),
      },
    };
  if (job.frames.length > job.viewSlots && job.slotsByHand === undefined)
    return {
      ...base,
      remedy: `Take the frames of the middle only, whose cameras stand closer than every ${trimmed((job.frames.length - 1) / (job.viewSlots - 1), 1)}th. ${fewer}`,
      action: {
        label: 'Take the middle frames',
        undoLabel: 'view slots',
        edit: takeMiddleFrames,
      },
    };
  return { ...base, remedy: `The depth lies evenly about the print already. ${fewer}` };
};

const pairName = (job: Job, index: number) =>
  `${nameInText(sequenceOf(job)[index]?.name ?? '')} to ${nameInText(sequenceOf(job)[index + 1]?.name ?? '')}`;

const notLevel = (job: Job, { levels }: ParallaxFacts): Finding | undefined => {
  const worst = levels.reduce(
    (best, level, index) => {
      const rise = Math.abs(level.rise);
      return rise > best.rise ? { rise, index } : best;
    },
    { rise: 0, index: 0 },
  );
  const keystone = Math.max(
    0,
    ...levels.map(({ keystone: k }) => Math.abs(k)).filter((k) => k > 0),
  );
  if (worst.rise < RISE_LENTICULES && keystone < RISE_LENTICULES) return undefined;
  const toedIn = keystone > worst.rise;
  return {
    id: 'parallax-not-level',
    severity: 'caution',
    title: toedIn ? 'The cameras were turned towards each other' : 'The pictures go up and down',
    figure: `${ribs(toedIn ? keystone : worst.rise)} ${toedIn ? 'at the corners' : `from ${pairName(job, worst.index)}`}`,
    reason: toedIn
      ? 'The corners rise on one side and fall on the other: toed-in cameras, whose views do not fit one print.'
      : 'The whole picture moves along the ribs between these frames: a crooked camera slide, or a camera that sagged.',
    remedy: toedIn
      ? 'Keep the cameras looking straight ahead and shift the window instead; the Shoot bench gives the figures.'
      : 'Level the camera slide, or line these frames up in a picture editor, and add them again.',
  };
};

const uneven = (job: Job, { steps }: ParallaxFacts): Finding | undefined => {
  const odd = steps.flatMap(({ stretch, slip }, index) => {
    // A step back of the same length belongs to a sequence that runs there and back.
    if (Math.abs(Math.abs(stretch) - 1) > UNEVEN)
      return [{ index, text: `${trimmed(stretch, 2)} steps` }];
    if (Math.abs(slip) > SLIP_LENTICULES) return [{ index, text: `slips ${ribs(slip)}` }];
    return [];
  });
  const [first] = odd;
  // When half of them differ there is no ordinary step: there and back, a flip, an animation.
  if (first === undefined || odd.length * 2 > steps.length) return undefined;
  return {
    id: 'parallax-uneven',
    severity: 'caution',
    title:
      odd.length === 1
        ? 'One step is unlike the others'
        : `${odd.length} steps are unlike the others`,
    figure: `${pairName(job, first.index)}: ${first.text}`,
    reason: 'Depth jerks where the camera’s step changes, as the head moves past.',
    remedy: 'Render or shoot these frames again at even steps, or leave a frame out.',
  };
};

/** @param whole the last complete measurement, which softening uses. */
export const parallaxFindings = (
  job: Job,
  measured: MeasuredParallax | undefined,
  whole?: WholeParallax,
): Finding[] => {
  const facts = parallaxFactsOf(job, measured);
  if (facts === undefined || !showsDepth(job)) return [];
  const softened = softenStanding(job, whole) === 'on';
  return foundIn([
    wrongSide(facts),
    beyondSharp(job, facts, softened),
    notLevel(job, facts),
    uneven(job, facts),
  ]);
};
