/** Numbers within limits, with a sentence for the person when they are not. */
import * as v from 'valibot';

export const measure = (what: string, least: number, most: number, shownUnit: string) =>
  v.pipe(
    v.number(`${what} must be a number.`),
    v.finite(`${what} must be a finite number.`),
    v.minValue(least, `${what} must be at least ${least}${shownUnit}.`),
    v.maxValue(most, `${what} must be at most ${most}${shownUnit}.`),
  );

export const wholeMeasure = (what: string, least: number, most: number) =>
  v.pipe(measure(what, least, most, ''), v.integer(`${what} must be a whole number.`));
