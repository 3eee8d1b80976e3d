/** Days as the job and its labels write them. */

/** The local date as ISO 8601: 2026-11-29. */
export const isoDay = (at: Date): string =>
  [at.getFullYear(), at.getMonth() + 1, at.getDate()]
    .map((part) => String(part).padStart(2, '0'))
    .join('-');
