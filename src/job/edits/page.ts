/** Changes to the page, each a step to undo. */
import { pagePlanOf, setPage, switchPage } from '../facts/page.ts';
import { tryChange } from '../../state/change.ts';
import { viewStore } from '../../state/view.ts';

export const changePage = (
  label: string,
  change: Parameters<typeof setPage>[1],
): string | undefined => tryChange(label, (job) => setPage(job, change), `page.${label}`);

export const switchWholePage = (on: boolean): string | undefined =>
  tryChange('page', (job) => switchPage(job, on, viewStore.getState().units));

/** Millimetres to a tenth: what a hand can mean. */
const tenth = (lengthMm: number): number => Math.round(lengthMm * 10) / 10;

/** Moves the print on its paper; presses of a key fold into one step, a drag is one by itself. */
export const movePrint = (
  rightMm: number,
  downMm: number,
  by: 'key' | 'drag',
): string | undefined =>
  tryChange(
    'print’s place',
    (job) => {
      const { leftMm, topMm } = pagePlanOf(job);
      return setPage(job, {
        place: { leftMm: tenth(leftMm + rightMm), topMm: tenth(topMm + downMm) },
      });
    },
    by === 'key' ? 'page.place' : undefined,
  );
