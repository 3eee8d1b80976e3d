/** The steps of mounting the lens: square, stick, trim, look. */
import type { Job } from '../../schema/job.ts';
import { mayFlash } from '../flash.ts';
import { printsDepth } from '../prints-depth.ts';
import type { MountNumbers } from './numbers.ts';
import type { PlainStep } from './step.ts';

const even = ({ hasRails }: MountNumbers) =>
  hasRails ? 'every rail is even' : 'the straight-ahead view is one picture';

const cutAt = ({ hasMarks }: MountNumbers) =>
  hasMarks ? 'from crop mark to crop mark' : 'at the picture’s edge';

const waste = ({ bleed, hasRails }: MountNumbers): string => {
  const parts = [bleed === undefined ? '' : `${bleed} of bleed`, hasRails ? 'the rails' : ''];
  const named = parts.filter((part) => part !== '').join(' and ');
  return named === '' ? '' : ` Outside them, ${named} fall away.`;
};

const squaring = (numbers: MountNumbers): PlainStep[] => [
  {
    id: 'lay',
    stage: 'Square',
    title: 'Lay the lens on.',
    text: `${numbers.laid}, ribs ${numbers.ribsRun}. It must reach over the whole ${numbers.size}${numbers.hasRails ? ' and over the rails' : ''}.`,
    why: numbers.mirrored
      ? 'The ink lies behind the film, mirrored, and is seen through it: the other side up, the picture is the wrong way round.'
      : 'The ribs are lenses: their flat backs must lie on the ink, or nothing is in focus.',
    cautions: ['edges'],
  },
  {
    id: 'square',
    stage: 'Square',
    title: numbers.hasRails ? 'Square it on the rails.' : 'Square it.',
    text: `Turn the lens until ${even(numbers)} from end to end; slanting stripes mean it is not square. Within ${numbers.angle}: ${numbers.offEnd} at one end, over ${numbers.alongSize}.`,
    why: `Turned further, the picture slides by more than ${numbers.budget} of a zone along the ribs.${
      numbers.hasRails
        ? ''
        : ' Rails under the lens tell this sooner than the picture does: they can be printed around it.'
    }`,
  },
  {
    id: 'centre',
    stage: 'Square',
    title: 'Centre it.',
    text: `Shift it across the ribs until from straight ahead, ${numbers.distance} away, ${numbers.inPlace}: ${numbers.offCentre}. A whole rib over, ${numbers.rib}, is right again.`,
    why: `Off the middle, the picture jumps back too soon on one side when you ${numbers.move}.`,
  },
];

const sticking = (numbers: MountNumbers): PlainStep[] => [
  {
    id: 'tack',
    stage: 'Stick',
    title: `Tack the ${numbers.tacked} edge.`,
    text: `Bare a finger’s width of adhesive at the ${numbers.tacked} edge, where ribs end, and press only that edge down.`,
    why: 'One edge keeps the place while the rest can still be lifted; what creeps then creeps along the ribs, where it does no harm.',
    cautions: ['adhesives'],
  },
  {
    id: 'look-again',
    stage: 'Stick',
    title: 'Look again.',
    text: `From ${numbers.distance}: ${even(numbers)} from end to end, within ${numbers.offEnd}. If not, lift the edge and lay it again.`,
    why: 'Pressing may turn the lens. Now that costs a minute; later, the print and the lens.',
  },
  {
    id: 'roll',
    stage: 'Stick',
    title: 'Roll it down.',
    text: `Draw the liner out little by little and roll along the ribs, ${numbers.rolled}, with even pressure.`,
    why: `The air leaves ahead of the roller; rolled across its ribs the lens may be pushed aside by more than ${numbers.offEnd}.`,
    cautions: ['rollers'],
  },
  {
    id: 'rest',
    stage: 'Stick',
    title: 'Let it rest.',
    text: 'Flat and under an even weight, as long as the adhesive’s supplier says.',
    why: 'Adhesive that has not taken hold lets go at the edges when they are cut.',
    cautions: ['adhesives'],
  },
];

const finishing = (job: Job, numbers: MountNumbers): PlainStep[] => [
  {
    id: 'trim-sides',
    stage: 'Trim and show',
    title: `First cut the ${numbers.sides}.`,
    text: `Along the ribs, ${cutAt(numbers)}: hold a metal rule in the groove between two ribs and run the blade along it, in several light passes.`,
    why: 'The other cuts are squared to this one. A blade that leaves the rule cuts into a rib, or into a hand.',
    cautions: ['blades'],
  },
  {
    id: 'trim-ends',
    stage: 'Trim and show',
    title: `Then the ${numbers.ends}.`,
    text: `Square to the first, along a metal rule, ${cutAt(numbers)}.${waste(numbers)} ${numbers.size} is left.`,
    why: 'Across the ribs a blade may chip them, and chips fly: wear eye protection, go lightly, and cut these last.',
    cautions: ['blades'],
  },
  {
    id: 'show',
    stage: 'Trim and show',
    title: 'Look at it and note what you see.',
    text: `In even light, ${numbers.distance} away: the picture turns all at once from edge to edge when you ${numbers.move}.`,
    why: 'A slide from edge to edge tells of pitch, a slant of squareness, depth inside out of the order of frames.',
    cautions: [
      ...(job.lamp === undefined ? [] : (['lamps'] as const)),
      ...(mayFlash(job) ? (['flashing'] as const) : []),
      ...(printsDepth(job) ? (['depth'] as const) : []),
    ],
  },
];

export const lensSteps = (job: Job, numbers: MountNumbers): readonly PlainStep[] => [
  ...squaring(numbers),
  ...sticking(numbers),
  ...finishing(job, numbers),
];
