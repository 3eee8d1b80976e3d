/**
 * After a press whose own button goes with what it put right: the focus would be nowhere, and the next
 * Tab would begin at the top of the page. It waits at the place named instead, and nothing scrolls.
 */
export const focusIfLost = (place: () => HTMLElement | null): void => {
  requestAnimationFrame(() => {
    if (document.activeElement === document.body) place()?.focus({ preventScroll: true });
  });
};
