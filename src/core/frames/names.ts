/**
 * Short names for files from folders: the bare names if they differ, otherwise with the folders that differ in front
 * (`left/pose_01.png`, `right/pose_01.png`).
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

/** Names of folders that tell what lies in them, not what it shows. */
const PLAIN_FOLDER =
  /^(frames?|views?|renders?|images?|pictures?|output|out|export|new folder|untitled folder)$/i;

const sharedStart = (texts: readonly string[]): string => {
  const [first = '', ...others] = texts;
  let end = first.length;
  for (const text of others) while (!text.startsWith(first.slice(0, end))) end -= 1;
  return first.slice(0, end);
};

/**
 * What files are called together: the folder or zip that they came in, else what their names begin with, the
 * number and the marks before it left off. Empty where they share nothing.
 * @param paths with `/` between folders.
 */
export const sharedName = (paths: readonly string[]): string => {
  const parts = paths.map((path) => path.split('/'));
  const folders = (parts[0] ?? [])
    .slice(0, -1)
    .filter((folder, depth) =>
      parts.every((path) => path[depth] === folder && path.length > depth + 1),
    );
  const folder = folders.filter((one) => !PLAIN_FOLDER.test(one)).at(-1);
  if (folder !== undefined) return folder.replace(/\.zip$/i, '').trim();
  const bare = parts.map((path) => (path.at(-1) ?? '').replace(/\.[^.]*$/, ''));
  return sharedStart(bare)
    .replace(/[\d\s._#()-]+$/, '')
    .trim();
};
