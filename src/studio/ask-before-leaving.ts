/** Makes the browser ask before the page is left, while something would be lost. */

/** Sets or removes a reason, by its name. The browser asks while there is a reason. */
export type AskBeforeLeaving = (reason: string, holds: boolean) => void;

export const createAskBeforeLeaving = (): AskBeforeLeaving => {
  const reasons = new Set<string>();
  const ask = (event: BeforeUnloadEvent) => event.preventDefault();
  return (reason, holds) => {
    if (holds) reasons.add(reason);
    else reasons.delete(reason);
    // Tests without a window have no page to leave.
    if (typeof addEventListener === 'undefined') return;
    if (reasons.size > 0) addEventListener('beforeunload', ask);
    else removeEventListener('beforeunload', ask);
  };
};
