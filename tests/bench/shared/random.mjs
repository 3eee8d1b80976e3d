// @ts-check
/** Seeded chance, so that a run can be had again. */

/** mulberry32, by Tommy Ettinger: public domain, from memory. @returns {() => number} 0 … 1, without 1. */
export const randomOf = (/** @type {number} */ seed) => {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
};

/** A number of that chance from one to the other. */
export const betweenOf =
  (/** @type {() => number} */ random) => (/** @type {number} */ from, /** @type {number} */ to) =>
    from + random() * (to - from);
