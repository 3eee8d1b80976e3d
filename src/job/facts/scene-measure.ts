/** Lengths of the scene: bare numbers are in its own units, typed units are converted. */
import type { Measure } from '../../core/units/measure.ts';
import { plainMeasure } from '../../core/units/measure.ts';
import { readLength, readNumber } from '../../core/units/parse.ts';
import type { SceneUnit } from './rig.ts';

/** Five figures: enough for the eye, and short enough to type. */
export const sceneNumber = (value: number): string =>
  Number.isFinite(value) ? String(Number(value.toPrecision(5))) : 'any distance';

export const sceneLength = (value: number, unit: SceneUnit): string =>
  Number.isFinite(value) ? `${sceneNumber(value)} ${unit.name}` : 'any distance';

export const sceneMeasure = (unit: SceneUnit, value: number): Measure => ({
  ...plainMeasure(10 ** (Math.floor(Math.log10(Math.max(value, 1e-6))) - 1), 9, unit.name),
  format: (shown) => String(Number(shown.toPrecision(7))),
  read: (text) => {
    const bare = readNumber(text);
    if (bare.ok) return bare;
    const length = readLength(text, 'mm');
    return length.ok ? { ...length, value: length.value / unit.mm, unit: '' } : length;
  },
});
