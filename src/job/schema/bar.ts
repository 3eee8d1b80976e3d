/** A length on paper as it was drawn, and as a ruler finds it. */
import * as v from 'valibot';
import { measure } from './measures.ts';
import { openObject } from './open-object.ts';

const bar = (way: 'across' | 'along') =>
  openObject({
    drawnMm: measure(`Length drawn ${way} the ribs`, 1, 20000, ' mm'),
    measuredMm: measure(`Measured ${way} the ribs`, 1, 20000, ' mm'),
  });

export const barAcrossSchema = bar('across');
export const barAlongSchema = bar('along');

/** Of one print or strip, as far as it was measured. */
export const barsSchema = openObject({
  across: v.optional(barAcrossSchema),
  along: v.optional(barAlongSchema),
});
export type Bars = v.InferOutput<typeof barsSchema>;
