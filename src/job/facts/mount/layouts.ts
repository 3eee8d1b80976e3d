/**
 * Changes to the checklist for several prints on one lens sheet, and for one print over several lens sheets: each
 * step then speaks of that layout, its sizes and its list of cuts.
 */
import { formatLengthRough, trimmed } from '../../../core/units/format.ts';
import { mm, mmToInch } from '../../../core/units/units.ts';
import type { Job } from '../../schema/job.ts';
import { gangGridOf, gangOf, gangSizeMm, ownMember } from '../gang.ts';
import { toleranceOf } from '../plan.ts';
import { tileNumbers } from '../tile-numbers.ts';
import { splitOf } from '../tiles.ts';
import type { MountNumbers } from './numbers.ts';
import type { PlainStep } from './step.ts';

export type StepChanges = Readonly<
  Record<string, Partial<Pick<PlainStep, 'title' | 'text' | 'why'>>>
>;

const sayIn = ({ unit }: MountNumbers) => ({
  rough: (lengthMm: number) => `${formatLengthRough(mm(lengthMm), unit)} ${unit}`,
  fine: (lengthMm: number) =>
    `${Number((unit === 'mm' ? lengthMm : mmToInch(mm(lengthMm))).toPrecision(2))} ${unit}`,
});

const severalPrints = (job: Job, numbers: MountNumbers): StepChanges => {
  const { rough, fine } = sayIn(numbers);
  const [widthMm, heightMm] = gangSizeMm(job);
  const sheet = `${formatLengthRough(mm(widthMm), numbers.unit)} × ${rough(heightMm)}`;
  const own = ownMember(job);
  const acrossMm = own.ribs * gangGridOf(job).pitchMm;
  const offEndMm = Math.tan(toleranceOf(job).skewRad) * gangOf(job).lensAlongMm;
  const marks = numbers.hasMarks ? ', in line with its crop marks,' : '';
  const even = numbers.hasRails
    ? 'every rail is even from end to end'
    : 'each print shows one picture from end to end, seen from straight ahead of it';
  return {
    measure: {
      text: `One print of this job across the ribs, from cut to cut: ${rough(acrossMm)}, within ${numbers.sizeExact}. If not, it was scaled: print again.`,
    },
    lay: {
      text: `${numbers.laid}, ribs ${numbers.ribsRun}, edge on edge with the printed lens sheet, ${sheet}.${numbers.hasRails ? ' Its free edge lies over the rails.' : ''}`,
    },
    square: {
      text: `Turn the lens until ${even}; slanting stripes mean it is not square. Within ${numbers.angle}: ${fine(offEndMm)} at one end of the lens sheet.`,
    },
    'look-again': {
      text: `From ${numbers.distance}: ${even}, within ${fine(offEndMm)}. If not, lift the edge and lay it again.`,
    },
    roll: {
      why: `The air leaves ahead of the roller; rolled across its ribs the lens may be pushed aside by more than ${fine(offEndMm)}.`,
    },
    centre: {
      text: `Shift it across the ribs until each print shows its middle view from straight ahead of that print, ${numbers.distance} away: ${numbers.offCentre}. A whole rib over, ${numbers.rib}, is right again.`,
    },
    'trim-sides': {
      title: 'First the cuts through the whole lens sheet.',
      text: `In the order of the cutting list: hold a metal rule in the groove that the list names${marks} and run the blade along it, in several light passes. Cuts across the ribs go along a metal rule too.`,
    },
    'trim-ends': {
      title: 'Then cut up each strip.',
      text: `In the order of the list, along a metal rule. Of each print of this job ${own.ribs} ribs, ${rough(acrossMm)}, by ${rough(own.alongMm)} are left.`,
    },
    show: {
      title: 'Look at each print and note what you see.',
    },
  };
};

const measured = ({ hasBar, hasMarks }: MountNumbers): string => {
  if (hasBar) return 'The bar on';
  return hasMarks ? 'From crop mark to crop mark on' : 'The picture of';
};

const tiles = (job: Job, numbers: MountNumbers): StepChanges => {
  const split = splitOf(job);
  if (!split.ok) return {};
  const { fine } = sayIn(numbers);
  const { eachMm, agreeMm, sheets } = tileNumbers(job, split.tiling);
  const even = numbers.hasRails
    ? 'its rails are even from end to end'
    : 'its picture is one from end to end';
  return {
    measure: {
      text: `${measured(numbers)} each of the ${trimmed(sheets, 0)} tiles: all alike, within ${numbers.sizeExact}. If not, print the odd ones again.`,
    },
    lay: {
      text: `One lens sheet on each tile. ${numbers.laid}, ribs ${numbers.ribsRun}. It must reach over the tile’s ${numbers.hasMarks ? 'crop marks' : 'edge'} on all sides.`,
    },
    square: {
      title: numbers.hasRails ? 'Square it on the rails.' : 'Square it.',
      text: `Turn each lens until ${even}. Within ${fine(eachMm)} at one end.`,
    },
    'look-again': {
      text: `From ${numbers.distance}, with the eye where it was: ${even}, within ${fine(eachMm)}. If not, lift the edge and lay it again.`,
    },
    roll: {
      why: `The air leaves ahead of the roller; rolled across its ribs the lens may be pushed aside by more than ${fine(eachMm)}.`,
    },
    centre: {
      text: `Shift it across the ribs until ${numbers.inPlace}, within ${fine(eachMm)}: with the eye ${numbers.distance} away, where ${numbers.hasLabel ? 'the tile’s label and the table say' : 'the table of tiles says'}, not before the tile’s own middle.`,
    },
    'trim-sides': {
      text: `On each tile hold a metal rule in the groove at ${numbers.hasMarks ? 'the crop marks' : 'the tile’s edge'} and run the blade along it, in several light passes, so that as many ribs are left as the table of tiles says.`,
    },
    'trim-ends': {
      text: `Square to the first, along a metal rule, ${numbers.hasMarks ? 'from crop mark to crop mark' : 'to the size in the table of tiles'}. The overlap falls away all round.`,
    },
    show: {
      title: 'Lay the tiles, look, and note what you see.',
      text: `From the middle outward, as the assembly plan says. In even light, ${numbers.distance} away from the middle of the whole, both sides of each seam turn together, within ${fine(agreeMm)} under the lens.`,
    },
  };
};

export const layoutChanges = (job: Job, numbers: MountNumbers): StepChanges => {
  if (job.tiles?.on === true) return tiles(job, numbers);
  return job.gang?.on === true ? severalPrints(job, numbers) : {};
};
