/** What would make a lens work, in words: what to do, and what it is now. */
import type { Change, Changeable, WhatWouldWork } from '../../core/plan/nearest-change.ts';
import { changeables } from '../../core/plan/nearest-change.ts';
import { trimmed } from '../../core/units/format.ts';
import { depthGainOf } from '../facts/plan.ts';
import { acrossMm } from '../facts/sheet.ts';
import { lensWishOf } from '../facts/lens-wish.ts';
import type { Job } from '../schema/job.ts';
import type { SayLength } from './found-lens.ts';

interface SaidChange {
  /** On the button: "Print 143 × 179 mm". */
  readonly act: string;
  /** "Now 203 × 254 mm; the depth of the scene shrinks with the picture." */
  readonly now: string;
}

const fromTo = (nearMm: number, farMm: number, say: SayLength): string =>
  farMm > nearMm ? `${say(nearMm)} to ${say(farMm)}` : say(nearMm);

const counted = (job: Job): string => (lensWishOf(job).use === 'flip' ? 'pictures' : 'frames');

type Saying = (job: Job, to: number, say: SayLength) => SaidChange;

const sayings: Readonly<Record<Changeable, Saying>> = {
  distance: (job, to, say) => {
    const { nearMm, farMm } = lensWishOf(job);
    return {
      act: `Look from ${fromTo(to, (farMm * to) / nearMm, say)}`,
      now: `now from ${fromTo(nearMm, farMm, say)}`,
    };
  },
  size: (job, to, say) => {
    const { widthMm, heightMm } = job.print;
    const scale = to / acrossMm(job);
    const size = (by: number) => `${say(widthMm * by)} × ${say(heightMm * by)}`;
    return {
      act: `Print ${size(scale)}`,
      now: `now ${size(1)}; the scene’s depth goes with its size`,
    };
  },
  gain: (job, to) => ({
    act: `Set depth gain to ${trimmed(to, 3)}`,
    now: `now ${trimmed(depthGainOf(job), 3)}; ${to < depthGainOf(job) ? 'it flattens the scene' : 'it deepens the scene'}`,
  }),
  frames: (job, to) => ({
    act: `Use ${to} ${counted(job)}`,
    now: `now ${counted(job) === 'pictures' ? lensWishOf(job).pictures : job.viewSlots}`,
  }),
};

/** A single change or a pair. */
export const sayChange = (job: Job, change: Change, say: SayLength): SaidChange => {
  const said = changeables.flatMap((figure) => {
    const to = change[figure];
    return to === undefined ? [] : [sayings[figure](job, to, say)];
  });
  const [first, ...rest] = said.map(({ act }) => act);
  return {
    act: [first, ...rest.map((act) => act.charAt(0).toLowerCase() + act.slice(1))].join(' and '),
    now: `${said.map(({ now }) => now).join('; ')}.`.replace(/^n/, 'N'),
  };
};

/** Before the changes. */
export const sayWhatWouldWork = ({ found, single, pair }: WhatWouldWork): string => {
  if (found.short.length === 0) return 'It does all of it as it is.';
  if (single.length === 1) return 'One change is enough:';
  if (single.length > 1) return 'Each of these is enough by itself, the smallest change first:';
  if (pair !== undefined)
    return 'No change of distance, size, depth gain or frames is enough by itself. The smallest two together:';
  return found.short.includes('price')
    ? 'No change of the print makes the sheet cheaper: raise what it may cost, or take another lens.'
    : 'No change of distance, size, depth gain or frames makes it do: take another lens.';
};
