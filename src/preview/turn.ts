/** The tilt from keys, a drag over the picture or a turned phone. −1 … 1 is one zone. */

const clamp = (tilt: number): number => Math.max(-1, Math.min(1, tilt));

/** A drag over the whole picture runs through the whole zone. */
export const dragTilt = (startTilt: number, movedPx: number, lengthPx: number): number =>
  clamp(startTilt + (2 * movedPx) / Math.max(1, lengthPx));

/**
 * The tilt for a key; undefined for other keys. The eye moves where the arrow points: right for upright ribs, down
 * for lying ones.
 */
export const keyTilt = (
  tilt: number,
  key: string,
  lying: boolean,
  viewSlots: number,
): number | undefined => {
  const view = 2 / viewSlots;
  switch (key) {
    case lying ? 'ArrowDown' : 'ArrowRight':
      return clamp(tilt + view / 2);
    case lying ? 'ArrowUp' : 'ArrowLeft':
      return clamp(tilt - view / 2);
    case 'PageUp':
      return clamp(tilt - 2 * view);
    case 'PageDown':
      return clamp(tilt + 2 * view);
    case 'Home':
      return -1;
    case 'End':
      return 1;
    default:
      return undefined;
  }
};

/**
 * The tilt for a phone that is turned by `turnedDeg`. Turning its right (or lower) side away moves the eye to the
 * left of its normal: x_e = −D tan α. A zone is p D / g', so the distance cancels: tilt = −2 g' tan α / p. Past a
 * zone's end the views begin again.
 */
export const phoneTilt = (turnedDeg: number, gapOverPitch: number): number => {
  const turned = Math.max(-80, Math.min(80, turnedDeg));
  const tilt = -2 * gapOverPitch * Math.tan((turned * Math.PI) / 180);
  return tilt - 2 * Math.floor((tilt + 1) / 2);
};
