/** Which frames of a clip are taken. Frames are counted from 0 here and from 1 for the person. */

/** @returns at most `count` different numbers from `first` to `last`, both among them, as evenly as whole numbers go. */
export const spreadEvenly = (first: number, last: number, count: number): number[] => {
  const most = Math.min(count, last - first + 1);
  if (most < 1) return [];
  if (most === 1) return [first];
  return Array.from({ length: most }, (_, i) =>
    Math.round(first + (i * (last - first)) / (most - 1)),
  );
};

/** "1, 5, 9": as a person reads and types them. */
export const sayPicks = (frames: readonly number[]): string =>
  frames.map((frame) => frame + 1).join(', ');

/**
 * Reads what a person typed: numbers and stretches ("3-6"), set apart by commas or spaces, in any order.
 * @param total frames of the clip.
 * @returns the frames, counted from 0, rising, each once; or the sentence that says what is wrong.
 */
export const readPicks = (text: string, total: number): readonly number[] | string => {
  const frames = new Set<number>();
  const parts = text
    .replace(/\s*[-–]\s*/g, '-')
    .split(/[\s,;]+/)
    .filter((part) => part !== '');
  for (const part of parts) {
    const [, from, to = from] = /^(\d{1,9})(?:-(\d{1,9}))?$/.exec(part) ?? [];
    if (from === undefined)
      return `“${part}” is no frame number. Type numbers such as 1, 5, 9 or stretches such as 3-6.`;
    const [low, high] = [Number(from), Number(to)];
    if (low < 1 || high > total || low > high)
      return `The frames of this clip are 1 to ${total}; “${part}” is not among them.`;
    for (let frame = low; frame <= high; frame += 1) frames.add(frame - 1);
  }
  if (frames.size === 0) return 'Type at least one frame number.';
  return [...frames].sort((a, b) => a - b);
};
