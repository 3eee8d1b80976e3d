/**
 * What would make one lens work: the nearest change of the distance, the print's size, the depth gain or the number of
 * frames that meets the wish. Found by asking the finder itself, so it holds where a relation turns back: further off
 * deepens what is sharp in front and shallows what is sharp behind.
 */
import { mm } from '../units/units.ts';
import type { FoundLens, LensOffer, LensWish } from './finder.ts';
import { comfortableDepth, lookAtLens, meetsWish, mostFrames } from './finder.ts';

export const changeables = ['distance', 'size', 'gain', 'frames'] as const;
export type Changeable = (typeof changeables)[number];

/**
 * What each figure becomes; what is left out stays. `distance`: the nearest place that the print is seen from, mm; the
 * farthest follows in proportion. `size`: the print across the ribs, mm; its length and its depth follow in proportion. `gain`:
 * γ. `frames`: view slots, or the pictures of a flip.
 */
export type Change = { readonly [Figure in Changeable]?: number };

export interface PresentLens {
  readonly offer: LensOffer;
  /** As things are: with its `gain` and `frames`. */
  readonly wish: LensWish & { readonly gain: number; readonly frames: number };
  /** Nobody stated a depth: as deep as is comfortable, whatever the distance. */
  readonly depthFollows: boolean;
}

/** The wish once something of it has changed. Field by field: a search asks it ten thousand times, and a copy is slow. */
export const wishAfter = ({ wish, depthFollows }: PresentLens, change: Change): LensWish => {
  const { use, acrossMm, nearMm, depth, eyesApartMm, mostPrice } = wish;
  const scale = (change.size ?? acrossMm) / acrossMm;
  const near = mm(change.distance ?? nearMm);
  const after: LensWish = {
    use: use.kind === 'flip' ? { kind: 'flip', pictures: change.frames ?? use.pictures } : use,
    acrossMm: mm(acrossMm * scale),
    alongMm: mm(wish.alongMm * scale),
    nearMm: near,
    farMm: mm((wish.farMm * near) / nearMm),
    acrossDpi: wish.acrossDpi,
    columns: wish.columns,
    eyesApartMm,
    budgetZones: wish.budgetZones,
    depth: depthFollows
      ? comfortableDepth(near, eyesApartMm)
      : { frontMm: mm(depth.frontMm * scale), behindMm: mm(depth.behindMm * scale) },
    gain: change.gain ?? wish.gain,
    frames: change.frames ?? wish.frames,
  };
  return mostPrice === undefined ? after : { ...after, mostPrice };
};

/** How fine a figure is set: whole millimetres, thousandths of the gain, whole frames. */
const STEPS: Readonly<Record<Changeable, number>> = {
  distance: 1,
  size: 1,
  gain: 0.001,
  frames: 1,
};

interface Line {
  readonly figure: Changeable;
  readonly now: number;
  /** In steps. */
  readonly least: number;
  readonly most: number;
}

/** What a job takes (src/job/schema). */
const linesOf = ({ offer, wish }: PresentLens): readonly Line[] => {
  const { use, nearMm, farMm, acrossMm, alongMm, gain } = wish;
  const forDepth = use.kind === 'depth';
  const [fewest, most] =
    use.kind === 'flip' ? [2, 12] : [2, Math.min(200, mostFrames(wish, offer.lens))];
  const longest = Math.min(5000, (20000 * acrossMm) / alongMm);
  return [
    { figure: 'distance', now: nearMm, least: 50, most: Math.floor((50000 * nearMm) / farMm) },
    {
      figure: 'frames',
      now: use.kind === 'flip' ? use.pictures : wish.frames,
      least: fewest,
      most,
    },
    ...(forDepth
      ? ([
          { figure: 'size', now: acrossMm, least: 20, most: Math.floor(longest) },
          { figure: 'gain', now: gain, least: 1, most: Math.round(1000 * Math.max(1, gain)) },
        ] as const)
      : []),
  ];
};

const valueOf = ({ figure }: Line, step: number): number =>
  figure === 'gain' ? step / 1000 : step * STEPS[figure];

/** How large a change is felt to be: the logarithm of the ratio, either way. */
const farness = (line: Line, step: number): number =>
  Math.abs(Math.log(valueOf(line, step) / line.now));

/**
 * Looks outward from `now` by this ratio, and coarsely where two figures are looked for: a stretch that meets the wish
 * over less than this may be missed.
 */
const FINE = 0.004;
const COARSE = 0.05;
/** A tenth of something, or ten times as much, is another plan and no change of this one (our own value). */
const FARTHEST = Math.log(10);

interface Search {
  readonly meets: (step: number) => boolean;
  readonly ratio: number;
  /** Changes from here on are of no use. */
  readonly within: number;
}

/** The nearest step in one direction. Between one that fails and one that meets, halving finds the edge. */
const nearestAlong = (line: Line, way: 1 | -1, search: Search): number | undefined => {
  const { meets, ratio, within } = search;
  const start = line.now / STEPS[line.figure];
  // Rounding must not make the present value its own neighbour.
  let fails = way > 0 ? Math.floor(start + 1e-9) : Math.ceil(start - 1e-9);
  for (;;) {
    const stride = Math.max(1, Math.floor(Math.abs(fails) * ratio));
    const wanted = fails + way * stride;
    const step = Math.max(line.least, Math.min(line.most, wanted));
    if ((step - fails) * way <= 0 || farness(line, fails + way) >= within) return undefined;
    if (!meets(step)) {
      fails = step;
      continue;
    }
    let met = step;
    while (Math.abs(met - fails) > 1) {
      const middle = Math.trunc((met + fails) / 2);
      if (meets(middle)) met = middle;
      else fails = middle;
    }
    return met;
  }
};

const nearestOn = (line: Line, search: Search): number | undefined => {
  const found = ([1, -1] as const).flatMap((way) => nearestAlong(line, way, search) ?? []);
  const [best] = found.sort((a, b) => farness(line, a) - farness(line, b));
  return best !== undefined && farness(line, best) < search.within ? best : undefined;
};

/** A pair that meets the wish: the line of each, and its step. */
interface Pair {
  readonly lines: readonly [Line, Line];
  readonly steps: readonly [number, number];
  readonly farness: number;
}

const changeOf = (line: Line, step: number): Change => ({ [line.figure]: valueOf(line, step) });

type Meets = (change: Change) => boolean;

/** The nearest second step for a first one that is settled. */
const withFirst = (
  lines: Pair['lines'],
  first: number,
  meets: Meets,
  { within, ratio }: Omit<Search, 'meets'>,
): Pair | undefined => {
  const [a, b] = lines;
  const left = within ** 2 - farness(a, first) ** 2;
  if (left <= 0) return undefined;
  const settled = changeOf(a, first);
  const second = nearestOn(b, {
    meets: (step) => meets({ ...settled, [b.figure]: valueOf(b, step) }),
    ratio,
    within: Math.min(FARTHEST, Math.sqrt(left)),
  });
  if (second === undefined) return undefined;
  return {
    lines,
    steps: [first, second],
    farness: Math.hypot(farness(a, first), farness(b, second)),
  };
};

/** Steps of a line from the present value outward, both ways, nearest first. */
const rungs = (line: Line): number[] => {
  const start = line.now / STEPS[line.figure];
  const all: number[] = [];
  for (const way of [1, -1] as const) {
    let step = way > 0 ? Math.floor(start + 1e-9) + 1 : Math.ceil(start - 1e-9) - 1;
    while (step >= line.least && step <= line.most && farness(line, step) < FARTHEST) {
      all.push(step);
      step += way * Math.max(1, Math.floor(Math.abs(step) * COARSE));
    }
  }
  return all.sort((a, b) => farness(line, a) - farness(line, b));
};

const nearer = (a: Pair | undefined, b: Pair | undefined): Pair | undefined =>
  a === undefined || (b !== undefined && b.farness < a.farness) ? b : a;

/** Coarsely over the first line's rungs, then closer and closer about the best of them. */
const nearestPairOn = (
  lines: Pair['lines'],
  meets: Meets,
  before: Pair | undefined,
): Pair | undefined => {
  const [a] = lines;
  let best = before;
  const tryAt = (first: number, ratio: number): void => {
    if (first < a.least || first > a.most) return;
    best = nearer(
      best,
      withFirst(lines, first, meets, { within: best?.farness ?? Math.SQRT2 * FARTHEST, ratio }),
    );
  };
  for (const first of rungs(a)) {
    if (best !== undefined && farness(a, first) >= best.farness) break;
    tryAt(first, COARSE);
  }
  if (best === before || best === undefined) return best;
  for (
    let step = Math.max(1, Math.floor(best.steps[0] * COARSE));
    step >= 1;
    step = Math.floor(step / 2)
  ) {
    const [middle] = best.steps;
    tryAt(middle - step, FINE);
    tryAt(middle + step, FINE);
  }
  return best;
};

/** Neither of the two may be nearer while the other stands. */
const settled = (pair: Pair, meets: Meets): Change => {
  const [[a, b], [first, second]] = [pair.lines, pair.steps];
  const other = changeOf(b, second);
  const search = { ratio: FINE, within: farness(a, first) * (1 + 1e-12) + 1e-12 };
  const closer = nearestOn(a, {
    ...search,
    meets: (step) => meets({ ...changeOf(a, step), ...other }),
  });
  const kept = changeOf(a, closer ?? first);
  const then = nearestOn(b, {
    ratio: FINE,
    within: farness(b, second) * (1 + 1e-12) + 1e-12,
    meets: (step) => meets({ ...kept, ...changeOf(b, step) }),
  });
  return { ...kept, ...changeOf(b, then ?? second) };
};

export interface WhatWouldWork {
  /** How the lens stands now. */
  readonly found: FoundLens;
  /** Each enough by itself, the nearest first; empty where the wish is met, or where no single one is enough. */
  readonly single: readonly Change[];
  /** The nearest pair, looked for where no single change is enough; left out: no two figures are enough either. */
  readonly pair?: Change;
}

/**
 * A price is met by no change of these. Values are whole millimetres, thousandths of the gain, whole frames; nearness is
 * the logarithm of the ratio, of a pair the root of the sum of both squares.
 * @throws RangeError that names the field for a rib that cannot exist.
 */
export const whatWouldWork = (present: PresentLens): WhatWouldWork => {
  const found = lookAtLens(present.wish, present.offer);
  if (found.short.length === 0 || found.short.includes('price')) return { found, single: [] };
  const meets: Meets = (change) => meetsWish(wishAfter(present, change), present.offer);
  const lines = linesOf(present);
  const single = lines
    .flatMap((line) => {
      const step = nearestOn(line, {
        meets: (at) => meets(changeOf(line, at)),
        ratio: FINE,
        within: FARTHEST,
      });
      return step === undefined ? [] : [{ change: changeOf(line, step), far: farness(line, step) }];
    })
    .sort((a, b) => a.far - b.far);
  if (single.length > 0) return { found, single: single.map(({ change }) => change) };
  let pair: Pair | undefined;
  for (const [at, a] of lines.entries())
    for (const b of lines.slice(at + 1)) pair = nearestPairOn([a, b], meets, pair);
  return { found, single: [], ...(pair === undefined ? {} : { pair: settled(pair, meets) }) };
};
