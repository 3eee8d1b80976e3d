/**
 * Recipes for the view slots: what happens as the eye moves past, compiled to the content of each slot. Frames are
 * named by id; shares are shares of linear light.
 */
import type { Ahead } from './flip-ahead.ts';
import { flipRuns } from './flip-ahead.ts';
import { slotFrames } from './slots.ts';

/** What stands between the pictures of a flip: the mean of both, or a plain tone. */
export type Guard = 'mean' | Plain;
export type Plain = 'grey' | 'white' | 'black';

export type Recipe =
  /** Two to four pictures in turn, with `guardSlots` slots between neighbours (see `flipRuns`). */
  | {
      readonly kind: 'flip';
      /** Frame ids; '' where none is chosen. */
      readonly pictures: readonly string[];
      readonly guardSlots: number;
      readonly guard: Guard;
      /** What an eye straight ahead sees; left out: the middle of the zone. */
      readonly ahead?: Ahead | undefined;
    }
  /** There and back through the frames, so that nothing jumps at the edge of the zone. */
  | { readonly kind: 'sway' }
  /** Depth with a crossfade: two sets from the same cameras, the first crossing into the second. */
  | {
      readonly kind: 'change';
      /** Ids of the second set; all other frames are the first. */
      readonly second: readonly string[];
      /** Middle and width of the crossing, shares of the zone, 0 … 1. */
      readonly crossAt: number;
      readonly crossWidth: number;
    }
  /** Moments, each held for the same share of the zone. */
  | { readonly kind: 'animation' };

export type RecipeKind = Recipe['kind'] | 'depth';

/** Part of a slot: a frame and its share of the light, above 0. */
export interface SlotPart {
  readonly frame: string;
  readonly weight: number;
}

/** One or two frames whose weights sum to 1; or no frame and a plain tone. */
export interface SlotContent {
  readonly parts: readonly SlotPart[];
  readonly plain?: Plain;
}

export const MOST_PICTURES = 4;

/** Frame indices there and back: slots i and slotCount − 1 − i show the same frame. */
export const swayFrames = (frameCount: number, slotCount: number): number[] => {
  const there = slotFrames(frameCount, Math.ceil(slotCount / 2));
  return Array.from(
    { length: there.length === 0 ? 0 : slotCount },
    (_, slot) => there[Math.min(slot, slotCount - 1 - slot)]!,
  );
};

/** Share of the second set in each slot: 0 before the crossing, rising evenly to 1 after it. */
export const crossShares = (slotCount: number, at: number, width: number): number[] =>
  Array.from({ length: slotCount }, (_, slot) => {
    const place = (slot + 0.5) / slotCount;
    if (width <= 0) return place < at ? 0 : 1;
    return Math.min(1, Math.max(0, (place - at) / width + 0.5));
  });

const only = (frame: string): SlotContent => ({ parts: [{ frame, weight: 1 }] });

/** `share` of the second, the rest of the first; a single part where only one shows. */
const mixed = (first: string, second: string, share: number): SlotContent => {
  if (first === second || share <= 0) return only(first);
  if (share >= 1) return only(second);
  return {
    parts: [
      { frame: first, weight: 1 - share },
      { frame: second, weight: share },
    ],
  };
};

const inOrder = (frames: readonly string[], indices: readonly number[]): SlotContent[] =>
  indices.map((index) => only(frames[index]!));

const flipSlots = (
  { guardSlots, guard, ahead }: Extract<Recipe, { kind: 'flip' }>,
  pictures: readonly string[],
  viewSlots: number,
): SlotContent[] => {
  const between = (first: string, second: string): SlotContent =>
    guard === 'mean' ? mixed(first, second, 0.5) : { parts: [], plain: guard };
  const runs = flipRuns({ pictures: pictures.length, guardSlots, viewSlots, ahead });
  const slots: SlotContent[] = [];
  runs.forEach(({ picture, from, to }, at) => {
    const next = runs[at + 1] ?? runs[0]!;
    const shown = pictures[picture]!;
    for (let slot = from; slot < to; slot += 1) slots.push(only(shown));
    const end = runs[at + 1]?.from ?? viewSlots;
    for (let slot = to; slot < end; slot += 1) slots.push(between(shown, pictures[next.picture]!));
  });
  return slots;
};

/** The two sets of a crossfade, each in the order of the sequence. */
export const setsOf = (
  frames: readonly string[],
  second: readonly string[],
): { first: string[]; second: string[] } => {
  const later = new Set(second);
  return {
    first: frames.filter((id) => !later.has(id)),
    second: frames.filter((id) => later.has(id)),
  };
};

/** The even spread, for a recipe that lacks what it needs, so that no slot is empty. */
const bySpread = (frames: readonly string[], slotCount: number): SlotContent[] =>
  inOrder(frames, slotFrames(frames.length, slotCount));

const byRecipe = (
  recipe: Recipe | undefined,
  frames: readonly string[],
  slotCount: number,
): SlotContent[] => {
  if (recipe?.kind === 'sway') return inOrder(frames, swayFrames(frames.length, slotCount));
  if (recipe?.kind === 'flip') {
    const known = new Set(frames);
    const pictures = recipe.pictures.filter((id) => known.has(id));
    if (pictures.length > 0) return flipSlots(recipe, pictures, slotCount);
  }
  if (recipe?.kind === 'change') {
    const { first, second } = setsOf(frames, recipe.second);
    if (first.length > 0 && second.length > 0) {
      const from = slotFrames(first.length, slotCount);
      const to = slotFrames(second.length, slotCount);
      return crossShares(slotCount, recipe.crossAt, recipe.crossWidth).map((share, slot) =>
        mixed(first[from[slot]!]!, second[to[slot]!]!, share),
      );
    }
  }
  return bySpread(frames, slotCount);
};

/**
 * What each slot shows. A frame chosen by hand overrides the recipe in its slot.
 * @param frames ids in the order of the sequence.
 * @returns length slotCount; empty when there are no frames.
 */
export const compileSlots = (
  recipe: Recipe | undefined,
  frames: readonly string[],
  slotCount: number,
  byHand: readonly string[] = [],
): SlotContent[] => {
  if (frames.length === 0) return [];
  const known = new Set(frames);
  return byRecipe(recipe, frames, slotCount).map((content, slot) => {
    const chosen = byHand[slot] ?? '';
    return known.has(chosen) ? only(chosen) : content;
  });
};

/** A larger share of another picture in what is seen is a ghost (our own value; no source). */
export const GHOST_SHARE = 0.02;

/**
 * The largest share, over all slots, that an eye sees from beyond `guards` slots on one side.
 * @param matrix the crosstalk matrix, a row for each slot that the eye stands before.
 */
export const ghostBeyond = (matrix: readonly (readonly number[])[], guards: number): number => {
  const count = matrix.length;
  let most = 0;
  matrix.forEach((row, view) => {
    let [left, right] = [0, 0];
    row.forEach((share, slot) => {
      // The first slot of the next rib follows the last of this one.
      const away = ((slot - view + count + Math.floor(count / 2)) % count) - Math.floor(count / 2);
      if (away > guards) right += share;
      if (away < -guards) left += share;
    });
    most = Math.max(most, left, right);
  });
  return most;
};

/** The fewest guard slots that keep the ghosts of neighbours below `GHOST_SHARE`, from the crosstalk matrix. */
export const advisedGuardSlots = (matrix: readonly (readonly number[])[]): number => {
  let guards = 0;
  while (guards < matrix.length && ghostBeyond(matrix, guards) > GHOST_SHARE) guards += 1;
  return guards;
};
