/** A print in front of a lamp: how much denser it is printed, and its balance against the lamp's colour. */
import { MOST_DENSITY, MOST_WARMTH } from '../../core/colour/lamp.ts';
import { measure } from './measures.ts';
import { openObject } from './open-object.ts';

export const lampSchema = openObject({
  density: measure('Density', 0.5, MOST_DENSITY, ''),
  warmth: measure('Warmth', -MOST_WARMTH, MOST_WARMTH, ''),
});
