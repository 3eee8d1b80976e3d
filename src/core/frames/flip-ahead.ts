/**
 * How the pictures of a flip lie in the view slots, where one gives way to the next, and which of them an eye straight
 * ahead sees. Places are in zones to the right of straight ahead (lying ribs: below it): a zone is one run through all
 * views, so all repeats by 1. Views run from left to right (relation 3), so slot s of N reaches from s / N − ½ to
 * (s + 1) / N − ½ when nothing is moved.
 */
import { slotFrames } from './slots.ts';

/** What an eye straight ahead sees: a picture, counted from 0; the change after one; or the views moved by hand. */
export type Ahead =
  | { readonly show: 'picture'; readonly at: number }
  | { readonly show: 'change'; readonly at: number }
  /** The views moved to the right by this many zones, −½ … ½. */
  | { readonly show: 'moved'; readonly zones: number };

export interface FlipSpec {
  readonly pictures: number;
  /** Wanted between neighbours; fewer where there is no room. */
  readonly guardSlots: number;
  readonly viewSlots: number;
  /** Left out: nothing is moved. */
  readonly ahead?: Ahead | undefined;
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

/** The end of the zone counts as in view once the views are moved by more than this (our own value). */
const END_IN_VIEW = 0.05;

/** Guards stand between neighbours; at the end of the zone, too, where that is moved into view. */
const roomFor = (
  { pictures, viewSlots }: FlipSpec,
  atEnd: boolean,
): [groups: number, most: number] => {
  const groups = pictures - 1 + (atEnd ? 1 : 0);
  return [groups, pictures < 2 ? 0 : Math.max(0, Math.floor((viewSlots - pictures) / groups))];
};

const laidOut = (flip: FlipSpec, atEnd: boolean): FlipRun[] => {
  const { pictures, guardSlots, viewSlots } = flip;
  const [groups, most] = roomFor(flip, atEnd);
  const guards = Math.min(guardSlots, most);
  const own = slotFrames(pictures, viewSlots - guards * groups);
  return Array.from({ length: pictures }, (_, picture) => ({
    picture,
    from: own.indexOf(picture) + guards * picture,
    to: own.lastIndexOf(picture) + 1 + guards * picture,
  })).filter(({ picture }) => own.includes(picture));
};

/** Middle of the change after a picture, which ends the zone after the last one, while nothing is moved. */
const changeOf = (runs: readonly FlipRun[], at: number, viewSlots: number): number | undefined => {
  const [before, after] = [runs[at], runs[at + 1]];
  return before && (before.to + (after?.from ?? viewSlots)) / 2 / viewSlots - 0.5;
};

const movedBy = ({ ahead, viewSlots }: FlipSpec, runs: readonly FlipRun[]): number => {
  if (ahead === undefined) return 0;
  if (ahead.show === 'moved') return inZone(ahead.zones);
  const run = runs.find(({ picture }) => picture === ahead.at);
  const place =
    ahead.show === 'picture'
      ? run && (run.from + run.to) / 2 / viewSlots - 0.5
      : runs[ahead.at + 1] && changeOf(runs, ahead.at, viewSlots);
  return place === undefined || place === 0 ? 0 : inZone(-place);
};

export const endInView = (flip: FlipSpec): boolean =>
  Math.abs(movedBy(flip, laidOut(flip, false))) > END_IN_VIEW;

/** The most guard slots between neighbours that leave at least one slot to each picture. */
export const mostGuardSlots = (flip: FlipSpec): number => roomFor(flip, endInView(flip))[1];

/** The pictures that have slots, in order. The slots between two runs, and after the last one, are guards. */
export const flipRuns = (flip: FlipSpec): FlipRun[] => laidOut(flip, endInView(flip));

/** How far the views are moved to the right, zones, −½ … ½; 0 without a choice or for a picture that has no slot. */
export const aheadZones = (flip: FlipSpec): number => movedBy(flip, flipRuns(flip));

/** All changes of the flip as it is moved, the one at the end of the zone last. */
export const flipChanges = (flip: FlipSpec): FlipChange[] => {
  const runs = flipRuns(flip);
  if (runs.length < 2) return [];
  const moved = aheadZones(flip);
  return runs.map(({ picture }, at) => ({
    from: picture,
    to: (runs[at + 1] ?? runs[0]!).picture,
    zones: inZone((changeOf(runs, at, flip.viewSlots) ?? 0.5) + moved),
  }));
};

/** The views moved so that the change after a picture comes to lie there; undefined where there is no such change. */
export const movedTo = (flip: FlipSpec, at: number, zones: number): Ahead | undefined => {
  const ways = [false, true].flatMap((atEnd) => {
    const change = changeOf(laidOut(flip, atEnd), at, flip.viewSlots);
    return change === undefined ? [] : [{ show: 'moved', zones: inZone(zones - change) } as const];
  });
  const [plain, guarded = plain] = ways;
  // With guards at the end the pictures are narrower, and the change lies elsewhere.
  return plain !== undefined && Math.abs(plain.zones) > END_IN_VIEW ? guarded : plain;
};

/** The choice for the same pictures in reverse order. */
export const reversedAhead = (ahead: Ahead, pictures: number): Ahead =>
  ahead.show === 'moved'
    ? { show: 'moved', zones: -ahead.zones }
    : { ...ahead, at: pictures - (ahead.show === 'picture' ? 1 : 2) - ahead.at };
