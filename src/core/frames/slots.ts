/**
 * Which frame each view slot shows when nobody chose by hand: spread evenly, first and last kept,
 * when there are more frames than slots; each frame held over its share of slots when fewer.
 * @returns length slotCount, indices into the frames, never falling.
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
 * A choice of frames by hand, put in order after slots or frames have changed: one entry a slot, ''
 * where nothing is chosen or the chosen frame is gone (such a slot shows what the even spread gives).
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

/** Slots as runs of neighbours, counted from 1: [0, 1, 2, 5] reads "1–3, 6". */
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
