/** Names beside others. */

/** "A lens", or "A lens 2" where that name is taken. */
export const untaken = (wanted: string, taken: ReadonlySet<string>): string => {
  if (!taken.has(wanted)) return wanted;
  let number = 2;
  while (taken.has(`${wanted} ${number}`)) number += 1;
  return `${wanted} ${number}`;
};

/** For a job that comes beside others. One without a name stays so; a long one leaves room for its number. */
export const untakenJobName = (wanted: string, taken: ReadonlySet<string>): string =>
  wanted === '' || !taken.has(wanted) ? wanted : untaken(wanted.slice(0, 190).trimEnd(), taken);
