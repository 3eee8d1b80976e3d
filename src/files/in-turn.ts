/** Runs tasks one after the other, even if one fails. */
export type InTurn = <T>(task: () => Promise<T>) => Promise<T>;

export const createTurn = (): InTurn => {
  let last: Promise<unknown> = Promise.resolve();
  return (task) => {
    const next = last.then(task, task);
    last = next;
    return next;
  };
};
