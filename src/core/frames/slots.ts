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
