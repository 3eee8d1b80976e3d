/** "about 40 s left", coarser the longer it takes, so that the words do not flicker. */
export const timeLeft = (seconds: number): string => {
  if (seconds < 2) return 'nearly done';
  if (seconds < 10) return `about ${Math.ceil(seconds)} s left`;
  if (seconds < 90) return `about ${Math.ceil(seconds / 5) * 5} s left`;
  if (seconds < 5400) return `about ${Math.round(seconds / 60)} min left`;
  return `about ${(seconds / 3600).toFixed(1)} h left`;
};
