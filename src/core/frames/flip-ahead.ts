/**
 * Where a flip shows which picture, and which of them an eye straight ahead sees. Places are in zones to the right of
 * straight ahead (lying ribs: below it): a zone is one run through all views, so all repeats by 1. Views run from left
 * to right (relation 3), so slot s of N reaches from s / N − ½ to (s + 1) / N − ½ when nothing is moved.
 */
import { mostGuardSlots } from './recipes.ts';
import { slotFrames } from './slots.ts';

/** What an eye straight ahead sees: a picture, counted from 0; the change after one; or the views moved by hand. */
export type Ahead =
  | { readonly show: 'picture'; readonly at: number }
  | { readonly show: 'change'; readonly at: number }
  /** The views moved to the right by this many zones, −½ … ½. */
  | { readonly show: 'moved'; readonly zones: number };

export interface FlipSpec {
  readonly pictures: number;
  readonly guardSlots: number;
  readonly viewSlots: number;
}

/** The view slots `from` … `to` − 1 of one picture, guards left out. */
export interface FlipRun {
  readonly picture: number;
  readonly from: number;
  readonly to: number;
}

/** One change of a flip: the last one leads from the last picture to the first, where the zone ends. */
export interface FlipChange {
  readonly from: number;
  readonly to: number;
  /** Its middle, −½ … ½. */
  readonly zones: number;
}

/** The same place in the zone around straight ahead: −½ ≤ z < ½. */
export const inZone = (zones: number): number => zones - Math.floor(zones + 0.5);

/** The pictures that have slots, in order. */
export const flipRuns = ({ pictures, guardSlots, viewSlots }: FlipSpec): FlipRun[] => {
  const guards = Math.min(guardSlots, mostGuardSlots(pictures, viewSlots));
  const own = slotFrames(pictures, viewSlots - guards * (pictures - 1));
  return Array.from({ length: pictures }, (_, picture) => ({
    picture,
    from: own.indexOf(picture) + guards * picture,
    to: own.lastIndexOf(picture) + 1 + guards * picture,
  })).filter(({ picture }) => own.includes(picture));
};

/** Middle of a picture while nothing is moved. */
const middleOf = (run: FlipRun | undefined, viewSlots: number): number | undefined =>
  run && (run.from + run.to) / 2 / viewSlots - 0.5;

/** Middle of the change after a picture while nothing is moved. */
const changeOf = (runs: readonly FlipRun[], at: number, viewSlots: number): number | undefined => {
  const [before, after] = [runs[at], runs[at + 1]];
  return before && after && (before.to + after.from) / 2 / viewSlots - 0.5;
};

/**
 * How far the views are moved to the right, zones, −½ … ½; 0 without a choice or for a picture that has no slot.
 */
export const aheadZones = (ahead: Ahead | undefined, flip: FlipSpec): number => {
  if (ahead === undefined) return 0;
  if (ahead.show === 'moved') return inZone(ahead.zones);
  const runs = flipRuns(flip);
  const place =
    ahead.show === 'picture'
      ? middleOf(
          runs.find(({ picture }) => picture === ahead.at),
          flip.viewSlots,
        )
      : changeOf(runs, ahead.at, flip.viewSlots);
  return place === undefined || place === 0 ? 0 : inZone(-place);
};

/** All changes of the flip as it is moved, the one at the end of the zone last. */
export const flipChanges = (flip: FlipSpec, movedZones: number): FlipChange[] => {
  const runs = flipRuns(flip);
  const last = runs.at(-1);
  if (last === undefined || runs.length < 2) return [];
  return runs.map(({ picture }, at) => ({
    from: picture,
    to: runs[at + 1]?.picture ?? runs[0]!.picture,
    zones: inZone((changeOf(runs, at, flip.viewSlots) ?? 0.5) + movedZones),
  }));
};

/** The choice for the same pictures in reverse order. */
export const reversedAhead = (ahead: Ahead, pictures: number): Ahead =>
  ahead.show === 'moved'
    ? { show: 'moved', zones: -ahead.zones }
    : { ...ahead, at: pictures - (ahead.show === 'picture' ? 1 : 2) - ahead.at };
