/** The browser's private disk, as far as the page and the workers share it. */

export const diskFolders = {
  /** Originals as they were added, one file for each frame id, and their thumbnails. */
  frames: 'frames',
  /** Frames prepared for a sheet, too large to hold in memory; swept at every start. */
  prepared: 'prepared',
  /** Finished sheets waiting to be downloaded; swept at every start. */
  sheets: 'sheets',
} as const;

/** Prepared frames larger than this go to the private disk instead of memory. */
export const PREPARED_IN_MEMORY_BYTES = 8 * 2 ** 20;
