/**
 * The frame of each view slot when none is chosen by hand. More frames than slots: spread evenly, first and last
 * included. Fewer: each frame fills its share of slots.
 * @returns length slotCount, rising indices into the frames; empty for no frames or no slots.
 */
export const slotFrames = (frameCount: number, slotCount: number): number[] => {
  if (frameCount < 1 || slotCount < 1) return [];
  return Array.from({ length: slotCount }, (_, slot) => {
    if (frameCount <= slotCount) return Math.floor((slot * frameCount) / slotCount);
    if (slotCount === 1) return Math.floor((frameCount - 1) / 2);
    return Math.round((slot * (frameCount - 1)) / (slotCount - 1));
  });
};

/**
 * Adapts a choice by hand after slots or frames have changed: one entry for each slot, '' where nothing is chosen or
 * the chosen frame is gone (the slot then shows the even spread).
 * @returns undefined when no choice is left.
 */
export const tidySlots = (
  chosen: readonly string[] | undefined,
  frameIds: Iterable<string>,
  slotCount: number,
): string[] | undefined => {
  if (chosen === undefined) return undefined;
  const known = new Set(frameIds);
  const tidy = Array.from({ length: slotCount }, (_, slot) => {
    const id = chosen[slot] ?? '';
    return known.has(id) ? id : '';
  });
  return tidy.some((id) => id !== '') ? tidy : undefined;
};

/** Slots as ranges, counted from 1: [0, 1, 2, 5] reads "1–3, 6". */
export const saySlots = (slots: readonly number[]): string => {
  const runs: [number, number][] = [];
  for (const slot of slots) {
    const run = runs.at(-1);
    if (run !== undefined && run[1] === slot - 1) run[1] = slot;
    else runs.push([slot, slot]);
  }
  return runs
    .map(([from, to]) => (from === to ? `${from + 1}` : `${from + 1}–${to + 1}`))
    .join(', ');
};
