/** A picture placed by itself on the print, and its own brightness and white. */
import type * as v from 'valibot';
import { measure } from './measures.ts';
import { openObject } from './open-object.ts';

/**
 * From where “Picture shape” would lay the picture. It is zoomed and turned about its own middle, then shifted. Shifts
 * are shares of the picture’s width as “Picture shape” lays it, so that a print of another size looks the same.
 */
export const placeSchema = openObject({
  /** 1: as large as “Picture shape” lays it. */
  zoom: measure('Zoom', 0.05, 20, ' times'),
  right: measure('Shift to the right', -5, 5, ' picture widths'),
  down: measure('Shift down', -5, 5, ' picture widths'),
  /** Clockwise. */
  turnDeg: measure('Turn', -180, 180, '°'),
});

/** On linear light (src/core/colour/picture-light.ts). */
export const pictureLightSchema = openObject({
  stops: measure('Brightness', -6, 6, ' stops'),
  warmth: measure('Warmth', -4, 4, ' stops'),
  tint: measure('Tint', -4, 4, ' stops'),
});

export type Place = v.InferOutput<typeof placeSchema>;
