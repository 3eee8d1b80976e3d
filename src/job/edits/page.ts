/** Changes to the page, each a step to undo. */
import type { LengthUnit } from '../../core/units/parse.ts';
import { pagePlanOf, setPage, switchPage } from '../facts/page.ts';
import type { JobEdit } from './edit.ts';
import { editsOf } from './edit.ts';

export const changePage = editsOf('page', setPage);

export const switchWholePage = (on: boolean, units: LengthUnit): JobEdit => [
  'page',
  (job) => switchPage(job, on, units),
];

/** Millimetres, rounded to a tenth: no hand places a print more finely. */
const tenth = (lengthMm: number): number => Math.round(lengthMm * 10) / 10;

/** Moves the print on its paper. Presses of a key fold into one step; each drag is a step of its own. */
export const movePrint = (rightMm: number, downMm: number, by: 'key' | 'drag'): JobEdit => {
  const move: JobEdit[1] = (job) => {
    const { leftMm, topMm } = pagePlanOf(job);
    return setPage(job, {
      place: { leftMm: tenth(leftMm + rightMm), topMm: tenth(topMm + downMm) },
    });
  };
  return by === 'key' ? ['print’s place', move, 'page.place'] : ['print’s place', move];
};
