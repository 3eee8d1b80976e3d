/** The browser's question before a page is left, while something would be lost with it. */

export type AskBeforeLeaving = (reason: string, holds: boolean) => void;

/** The browser asks while at least one reason holds. Each reason has a name, so that it can be taken back. */
export const createAskBeforeLeaving = (): AskBeforeLeaving => {
  const reasons = new Set<string>();
  const ask = (event: BeforeUnloadEvent) => event.preventDefault();
  return (reason, holds) => {
    if (holds) reasons.add(reason);
    else reasons.delete(reason);
    // There is no page to leave in tests without a window.
    if (typeof addEventListener === 'undefined') return;
    if (reasons.size > 0) addEventListener('beforeunload', ask);
    else removeEventListener('beforeunload', ask);
  };
};
