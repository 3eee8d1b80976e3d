/** The browser's private disk, as far as the page and the workers share it. */

export const diskFolders = {
  /** Originals as they were added, one file for each frame id, and their thumbnails. */
  frames: 'frames',
  /** Frames prepared for a sheet, too large to hold in memory; swept at every start. */
  prepared: 'prepared',
  /** Woven files, whole or begun, by the job they belong to; swept once their job is gone. */
  sheets: 'sheets',
} as const;

/** Prepared frames larger than this go to the private disk instead of memory. */
export const PREPARED_IN_MEMORY_BYTES = 8 * 2 ** 20;
