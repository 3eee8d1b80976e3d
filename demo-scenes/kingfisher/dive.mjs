/**
 * Where the bird is in each frame. at: the middle of its body; lean: degrees below level at which the body points;
 * gaze: the same for the bill; hand: 1 facing right, −1 facing left; open: wings folded 0 … spread 1; flap: degrees the
 * wing tips are raised; sweep: how far the tips trail.
 */
export const POSES = [
  { at: [-30, -72, 0], lean: -58, gaze: 12, hand: 1, open: 0, flap: 0, sweep: 0, perched: true },
  {
    at: [-25, -70, 0],
    lean: -8,
    gaze: 42,
    hand: 1,
    open: 0.12,
    flap: 10,
    sweep: 0.5,
    perched: true,
  },
  { at: [2, -50, 4], lean: 16, gaze: 36, hand: 1, open: 1, flap: 38, sweep: 0.1 },
  { at: [17, -30, 4], lean: 52, gaze: 62, hand: 1, open: 0.85, flap: 30, sweep: 0.65 },
  { at: [26, 2, 6], lean: 76, gaze: 82, hand: 1, open: 0.4, flap: 12, sweep: 0.95 },
  { at: [31, 36, 8], lean: 87, gaze: 88, hand: 1, open: 0.16, flap: 5, sweep: 1 },
  { at: [32, 78, 10], lean: 89, gaze: 90, hand: 1, open: 0.2, flap: 10, sweep: 1 },
  null,
  { at: [28, 56, 8], lean: -68, gaze: -30, hand: -1, open: 1, flap: 52, sweep: 0.15, fish: true },
  { at: [14, 10, 4], lean: -42, gaze: -12, hand: -1, open: 1, flap: -22, sweep: 0.3, fish: true },
  { at: [-8, -46, 0], lean: -38, gaze: -4, hand: -1, open: 1, flap: 48, sweep: 0.2, fish: true },
  {
    at: [-30, -72, 0],
    lean: -58,
    gaze: -6,
    hand: -1,
    open: 0,
    flap: 0,
    sweep: 0,
    perched: true,
    fish: true,
  },
];

/** Where the bird goes in, and the frame in which it does (0-based). */
export const ENTRY = [32, 10];
export const ENTRY_FRAME = 6;
