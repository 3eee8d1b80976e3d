/** The lens sheet, by its supplier's data or measured. */
import * as v from 'valibot';
import { measure } from './measures.ts';
import { openObject } from './open-object.ts';

/** The messages name LPI too: most people know their lens by LPI. */
const lensPitch = v.pipe(
  v.number('Lens pitch must be a number.'),
  v.finite('Lens pitch must be a finite number.'),
  v.minValue(0.05, 'Lens pitch must be at least 0.05 mm: that is 508 LPI. Did you mean mm or LPI?'),
  v.maxValue(5, 'Lens pitch must be at most 5 mm: that is 5.08 LPI. Did you mean mm or LPI?'),
);

export const lensSchema = openObject({
  pitchMm: lensPitch,
  thicknessMm: measure('Lens thickness', 0.05, 20, ' mm'),
  index: measure('Refractive index', 1.2, 2.2, ''),
  /** Left out if unknown: the lens sheet then counts as in focus. */
  radiusMm: v.optional(measure('Rib radius', 0.02, 20, ' mm')),
  /** Left out if not stated. Only compared with what the other numbers give. */
  supplierAngleDeg: v.optional(measure('Supplier’s viewing angle', 5, 170, '°')),
});
