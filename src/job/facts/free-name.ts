/** "A lens", or "A lens 2" if that name is taken. */
export const untaken = (wanted: string, taken: ReadonlySet<string>): string => {
  if (!taken.has(wanted)) return wanted;
  let number = 2;
  while (taken.has(`${wanted} ${number}`)) number += 1;
  return `${wanted} ${number}`;
};

/** The same for a job. An empty name stays empty; a long one is cut to leave room for its number. */
export const untakenJobName = (wanted: string, taken: ReadonlySet<string>): string =>
  wanted === '' || !taken.has(wanted) ? wanted : untaken(wanted.slice(0, 190).trimEnd(), taken);
