/**
 * The gentle sway of the proof. WCAG 2.2, success criterion 2.3.1: nothing flashes more than three
 * times in any one second. A flash is a change and the change back, so two view changes; the sway
 * is slowed until even frames that alternate between black and white stay under that.
 */

/** Share of the zone that the sway covers: it stops short of the ends, where the views jump. */
const REACH = 0.92;
/** There and back takes at least four seconds. */
const QUICKEST_HZ = 0.25;
/** Under three, because a sine is faster in its middle. */
const FLASHES_A_SECOND = 2.5;

/**
 * How often the sway goes there and back in a second. A sine of reach A over N views passes at most π A N f views
 * in a second, in its middle.
 * @param viewChanges how often the frame changes from one view slot to the next, 0 or more.
 */
export const swayHz = (viewChanges: number): number => {
  const views = viewChanges + 1;
  return Math.min(QUICKEST_HZ, (2 * FLASHES_A_SECOND) / (Math.PI * REACH * views));
};

/** Tilt, −1 … 1, `seconds` after the sway began at `startTilt`. */
export const swayTilt = (startTilt: number, seconds: number, viewChanges: number): number => {
  const start = Math.asin(Math.max(-1, Math.min(1, startTilt / REACH)));
  return REACH * Math.sin(start + 2 * Math.PI * swayHz(viewChanges) * seconds);
};
