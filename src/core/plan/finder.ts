/**
 * Which lens sheet for this picture, this size, this distance, on this printer: every sheet that is offered, with what
 * it would show, the ones that meet the wish first, and none that another beats in everything.
 */
import type { LensSheet } from '../lens/lens.ts';
import { viewingCone, zoneWidth } from '../lens/traced.ts';
import type { Dpi, Lpi, Mm, Rad } from '../units/units.ts';
import { mm, mmToLpi } from '../units/units.ts';
import type { DepthRange } from './depth.ts';
import {
  COMFORT_RAD,
  comfortRange,
  gainThatFits,
  rangeWithin,
  SHARP_LENTICULES,
  viewsBetweenEyes,
} from './depth.ts';
import type { Printing } from './fit.ts';
import { fit, framesToldApart } from './fit.ts';
import { tolerance } from './tolerance.ts';

export type LensUse =
  | { readonly kind: 'depth' }
  | { readonly kind: 'flip'; readonly pictures: number }
  | { readonly kind: 'animation' };

export interface LensWish {
  readonly use: LensUse;
  /** The print, across and along the ribs. */
  readonly acrossMm: Mm;
  readonly alongMm: Mm;
  /** Seen from between these distances; `nearMm` ≤ `farMm`. */
  readonly nearMm: Mm;
  readonly farMm: Mm;
  readonly acrossDpi: Dpi;
  readonly columns: Printing['columns'];
  readonly eyesApartMm: Mm;
  /** τ, zones by which the picture may slide from edge to edge. */
  readonly budgetZones: number;
  /** How far the scene reaches, `frontMm` below 0; `comfortableDepth` where nobody knows. */
  readonly depth: DepthRange;
  /** γ, above 0, that the scene is shown at; left out: 1, true depth. */
  readonly gain?: number;
  /** Frames that are to be made, from 1; left out: as many as each lens can use. No matter for a flip. */
  readonly frames?: number;
  /** At most, for a sheet; left out: no matter. */
  readonly mostPrice?: number;
}

export interface LensOffer {
  readonly id: string;
  readonly name: string;
  /** A sheet that the person has or a piece of one, or a type that is commonly sold. */
  readonly source: 'own' | 'type';
  /** A piece that is left of a sheet the person has: used up first. */
  readonly isOffcut?: boolean;
  readonly lens: LensSheet;
  readonly price?: number;
}

/** What stands against an offer. */
export type Shortfall =
  'frames' | 'eyes-share-a-view' | 'zone-narrower-than-eyes' | 'depth' | 'price';

export interface FoundLens extends LensOffer {
  readonly lpi: Lpi;
  readonly coneRad: Rad;
  /** Frames to make, 1 where the lens is of no use for this; places under the rib that an eye can tell apart. */
  readonly frames: number;
  readonly places: number;
  /** What stays sharp at the wished depth gain from anywhere between the two distances. */
  readonly sharp: DepthRange;
  /** Share of the wished depth that stays sharp, 0 … 1. */
  readonly depthShare: number;
  /** Views between the eyes, from near and from far. */
  readonly betweenEyes: readonly [near: number, far: number];
  readonly zoneMm: readonly [near: Mm, far: Mm];
  /** The ribs are wider than one arcminute from near: seen as lines. */
  readonly ribsSeen: boolean;
  /** Share of the dots under a rib that two frames share. */
  readonly lost: number;
  /** How exactly the pitch must be known over this print. */
  readonly pitchLpi: Lpi;
  /** Empty: it meets the wish. */
  readonly short: readonly Shortfall[];
}

/** As deep as eyes join two views at ease, from the nearest place: what there is to wish where nothing else is known. */
export const comfortableDepth = (nearMm: Mm, eyesApartMm: Mm): DepthRange =>
  comfortRange(COMFORT_RAD, nearMm, eyesApartMm);

/** Normal acuity parts lines one arcminute apart (ISO 8596: the step of the Landolt ring at 1.0). */
export const ACUITY_RAD = Math.PI / 180 / 60;
/** Frames half as wide as an eye can tell apart still smooth the turn (our own value). */
const SMOOTH = 2;
/** A picture of a flip has its own place and a guard on each side. */
const PLACES_A_PICTURE = 3;

/** How many frames an eye tells apart hardly depends on the distance, and takes a hundred traces: asked once a lens. */
const TOLD_FROM = mm(1000);
const told = new Map<string, number>();
/** The last answer by object: whoever looks for the nearest change asks thousands of times of one lens. */
const lastTold = new WeakMap<LensSheet, Printing & { readonly apart: number }>();

const toldApart = (lens: LensSheet, { acrossDpi, columns }: Printing): number => {
  const last = lastTold.get(lens);
  if (last?.acrossDpi === acrossDpi && last.columns === columns) return last.apart;
  const { pitchMm, thicknessMm, index, radiusMm } = lens;
  const key = [pitchMm, thicknessMm, index, radiusMm, acrossDpi, columns].join();
  const known = told.get(key);
  const apart = known ?? framesToldApart(lens, { acrossDpi, columns }, TOLD_FROM);
  if (known === undefined) {
    if (told.size > 1000) told.clear();
    told.set(key, apart);
  }
  lastTold.set(lens, { acrossDpi, columns, apart });
  return apart;
};

const narrower = (a: DepthRange, b: DepthRange): DepthRange => ({
  frontMm: mm(Math.max(a.frontMm, b.frontMm)),
  behindMm: mm(Math.min(a.behindMm, b.behindMm)),
});

/** The most frames that are worth making with a lens: for depth, half as wide as an eye tells apart. */
const usefulFrames = (use: LensUse, whole: number, apart: number): number =>
  Math.min(whole, use.kind === 'depth' ? SMOOTH * apart : apart);

const framesFor = ({ use, frames }: LensWish, whole: number, apart: number): number =>
  use.kind === 'flip' ? use.pictures : (frames ?? usefulFrames(use, whole, apart));

/** @throws RangeError that names the field for a rib that cannot exist. */
export const mostFrames = (wish: LensWish, lens: LensSheet): number =>
  usefulFrames(wish.use, fit(lens, wish.acrossDpi, wish.farMm).wholeFrames, toldApart(lens, wish));

/** Places that a use takes under the rib, each with a dot of its own and told from its neighbours. */
const placesFor = ({ use, frames = 2 }: LensWish): number => {
  if (use.kind === 'flip') return PLACES_A_PICTURE * use.pictures;
  // Views of one scene may share dots; moments may not.
  return use.kind === 'depth' ? 2 : Math.max(2, frames);
};

/** What decides whether a lens does for a wish. Apart from the rest of the figures, since it is asked most often. */
const judge = (wish: LensWish, { lens, price }: Pick<LensOffer, 'lens' | 'price'>) => {
  const { use, nearMm, farMm, eyesApartMm, depth, gain = 1, mostPrice } = wish;
  const { wholeFrames, dots, leftOver } = fit(lens, wish.acrossDpi, farMm);
  const apart = toldApart(lens, wish);
  const places = Math.min(wholeFrames, apart);
  const frames = Math.max(1, framesFor(wish, wholeFrames, apart));
  const zoneMm = [zoneWidth(lens, nearMm), zoneWidth(lens, farMm)] as const;
  const between = (distance: Mm) => viewsBetweenEyes(lens, frames, distance, eyesApartMm);
  const betweenEyes = [between(nearMm), between(farMm)] as const;
  const at = (distanceMm: Mm) => ({ lens, viewSlots: frames, distanceMm });
  const fits = Math.min(gainThatFits(at(nearMm), depth), gainThatFits(at(farMm), depth));
  const depthShare = Math.min(1, fits / gain);
  const short: Shortfall[] = [];
  if (places < placesFor(wish)) short.push('frames');
  if (use.kind === 'depth') {
    if (betweenEyes[1] < 1) short.push('eyes-share-a-view');
    if (zoneMm[0] < eyesApartMm) short.push('zone-narrower-than-eyes');
    if (depthShare < 1) short.push('depth');
  }
  if (mostPrice !== undefined && price !== undefined && price > mostPrice) short.push('price');
  return { frames, places, zoneMm, betweenEyes, depthShare, lost: leftOver / dots, short };
};

/** Whether nothing stands against the offer: `lookAtLens` without its figures, for those who ask a thousand times. */
export const meetsWish = (wish: LensWish, offer: LensOffer): boolean =>
  judge(wish, offer).short.length === 0;

/** @throws RangeError that names the field for a rib that cannot exist. */
export const lookAtLens = (wish: LensWish, offer: LensOffer): FoundLens => {
  const { nearMm, farMm, gain = 1 } = wish;
  const { lens } = offer;
  const judged = judge(wish, offer);
  const sharpAt = (distanceMm: Mm) =>
    rangeWithin({ lens, viewSlots: judged.frames, distanceMm, gain }, SHARP_LENTICULES);
  return {
    ...offer,
    ...judged,
    lpi: mmToLpi(lens.pitchMm),
    coneRad: viewingCone(lens),
    sharp: narrower(sharpAt(nearMm), sharpAt(farMm)),
    ribsSeen: lens.pitchMm / nearMm > ACUITY_RAD,
    pitchLpi: tolerance(wish.budgetZones, lens.pitchMm, wish.acrossMm, wish.alongMm).pitchLpi,
  };
};

/**
 * What more of is better, the first before all others. Depth: that what is wished stays sharp, then fineness, then a wide
 * cone to move in. Flips: a wide cone, over which a hand finds each picture (common practice, no source). Movements:
 * moments. A price counts where it is known.
 */
export const meritsOf = (use: LensUse, found: FoundLens): readonly number[] => {
  const { depthShare, coneRad, lpi, lost, price = 0, places } = found;
  // Below one part in a hundred nobody sees a shared dot, and a hair of cone is no reason.
  const [dots, cone] = [-Math.round(100 * lost), Math.round(100 * coneRad)];
  if (use.kind === 'depth') return [depthShare, lpi, cone, -price];
  return use.kind === 'flip' ? [cone, lpi, dots, -price] : [places, lpi, cone, dots, -price];
};

const beats = (a: readonly number[], b: readonly number[]): boolean =>
  a.every((merit, i) => merit >= b[i]!) && a.some((merit, i) => merit > b[i]!);

/**
 * Those that meet the wish first, the person's own sheets before types, then by merit, an offcut before a whole sheet of its kind. A type that another type with no
 * more shortfalls beats in everything is left out; the person's own are all listed.
 */
export const findLenses = (wish: LensWish, offers: readonly LensOffer[]): FoundLens[] => {
  const looked = offers.map((offer) => {
    const found = lookAtLens(wish, offer);
    return { found, merits: meritsOf(wish.use, found) };
  });
  const kept = looked.filter(
    (one) =>
      one.found.source === 'own' ||
      !looked.some(
        (other) =>
          other.found.source === 'type' &&
          other.found.short.every((name) => one.found.short.includes(name)) &&
          beats(other.merits, one.merits),
      ),
  );
  const byMerit = (a: readonly number[], b: readonly number[]) =>
    b.map((merit, i) => merit - a[i]!).find((difference) => difference !== 0) ?? 0;
  return kept
    .sort(
      (a, b) =>
        a.found.short.length - b.found.short.length ||
        Number(b.found.source === 'own') - Number(a.found.source === 'own') ||
        byMerit(a.merits, b.merits) ||
        Number(b.found.isOffcut === true) - Number(a.found.isOffcut === true),
    )
    .map(({ found }) => found);
};
