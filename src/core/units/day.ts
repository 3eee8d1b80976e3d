/** Days as the job and its labels write them. */

/** The day of this moment where the person is, as ISO 8601 writes it: 2026-11-29. */
export const isoDay = (at: Date): string =>
  [at.getFullYear(), at.getMonth() + 1, at.getDate()]
    .map((part) => String(part).padStart(2, '0'))
    .join('-');
