/**
 * What to call files that came from folders: their bare names where these tell them apart, otherwise
 * with as many folders in front as differ (`left/pose_01.png`, `right/pose_01.png`).
 * @param paths with `/` between folders.
 */
export const shortNames = (paths: readonly string[]): string[] => {
  const parts = paths.map((path) => path.split('/'));
  const bare = parts.map((path) => path.at(-1) ?? '');
  if (new Set(bare).size === bare.length) return bare;
  const shortest = Math.min(...parts.map((path) => path.length - 1));
  let shared = 0;
  while (shared < shortest && parts.every((path) => path[shared] === parts[0]?.[shared]))
    shared += 1;
  return parts.map((path) => path.slice(shared).join('/'));
};
