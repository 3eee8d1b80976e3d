/** Runs tasks one after the other, whether or not the one before went well. */
export type InTurn = <T>(task: () => Promise<T>) => Promise<T>;

export const createTurn = (): InTurn => {
  let last: Promise<unknown> = Promise.resolve();
  return (task) => {
    const next = last.then(task, task);
    last = next;
    return next;
  };
};
