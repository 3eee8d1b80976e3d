/** Paths of files in folders and zips that a person hands over: text to sort, show and look up, never a place to read from. */

/** Zip programs also write backslashes, a leading slash and `..`: only the plain folders are kept. */
export const plainPath = (path: string): string =>
  path
    .replaceAll('\\', '/')
    .split('/')
    .filter((part) => part !== '' && part !== '.' && part !== '..')
    .join('/');

/** The name alone. */
export const nameOf = (path: string): string => path.slice(path.lastIndexOf('/') + 1);

const LITTER = /^(\..*|thumbs\.db|ehthumbs\.db|desktop\.ini|icon\r|__macosx|@eadir)$/i;

/** Hidden files, previews and notes that systems leave in folders and zips. */
export const isLitter = (path: string): boolean =>
  path.split('/').some((part) => LITTER.test(part));

/** A colour profile of a printer and its paper, by the endings that systems give it. */
export const isProfileName = (path: string): boolean => /\.ic[cm]$/i.test(path);
