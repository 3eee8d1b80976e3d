/** Changes to the page, each a step to undo. */
import type { LengthUnit } from '../../core/units/parse.ts';
import { pagePlanOf, setPage, switchPage } from '../facts/page.ts';
import type { JobEdit } from './edit.ts';

export const changePage = (label: string, change: Parameters<typeof setPage>[1]): JobEdit => [
  label,
  (job) => setPage(job, change),
  `page.${label}`,
];

export const switchWholePage = (on: boolean, units: LengthUnit): JobEdit => [
  'page',
  (job) => switchPage(job, on, units),
];

/** Millimetres to a tenth: a hand cannot place it finer. */
const tenth = (lengthMm: number): number => Math.round(lengthMm * 10) / 10;

/** Moves the print on its paper; presses of a key fold into one step, a drag is one by itself. */
export const movePrint = (rightMm: number, downMm: number, by: 'key' | 'drag'): JobEdit => {
  const move: JobEdit[1] = (job) => {
    const { leftMm, topMm } = pagePlanOf(job);
    return setPage(job, {
      place: { leftMm: tenth(leftMm + rightMm), topMm: tenth(topMm + downMm) },
    });
  };
  return by === 'key' ? ['print’s place', move, 'page.place'] : ['print’s place', move];
};
