/** What saves a print without a new one, in words; and where that cannot be done, that it cannot. */
import type { Remedy } from '../../core/mend/remedies.ts';
import { formatLength, sayDoubtedLength, sayLength, trimmed } from '../../core/units/format.ts';
import type { LengthUnit } from '../../core/units/parse.ts';
import { mm, rad, radToDeg } from '../../core/units/units.ts';
import type { Printed } from '../schema/trial.ts';

/** A print is hung for one place: no one takes it for right at under two thirds of that distance, or over one and a half times (our own values). */
const AS_FAR = 1.5;

/** Whether the print can hang where it is right: about as far away as it was made for. */
export const canStandThere = (
  { distanceMm }: Extract<Remedy, { kind: 'stand-at' }>,
  printed: Pick<Printed, 'distanceMm'>,
): boolean =>
  distanceMm <= AS_FAR * printed.distanceMm && distanceMm >= printed.distanceMm / AS_FAR;

const wayOf = (shiftMm: number, ribs: Printed['ribs']): string => {
  const [forth, back] = ribs === 'upright' ? ['to the right', 'to the left'] : ['down', 'up'];
  return shiftMm > 0 ? forth : back;
};

/** @param printed what the print was woven for. */
export const saySaving = (
  remedy: Remedy,
  printed: Pick<Printed, 'distanceMm' | 'ribs'>,
  units: LengthUnit,
): string => {
  const length = (lengthMm: number) => `${formatLength(mm(Math.abs(lengthMm)), units)} ${units}`;
  const fine = (lengthMm: number) =>
    units === 'mm' ? `${trimmed(Math.abs(lengthMm), 2)} mm` : length(lengthMm);
  switch (remedy.kind) {
    case 'turn':
      return `Turn the print ${remedy.rad > 0 ? 'clockwise' : 'anticlockwise'} by ${trimmed(Math.abs(radToDeg(rad(remedy.rad))), 2)}°: its far end goes ${length(remedy.endsMm)}, the near end held.`;
    case 'shift':
      return `Slide the print ${wayOf(remedy.mm, printed.ribs)} under the lens by ${fine(remedy.mm)}: go by the picture, not by a ruler, until it no longer jumps straight ahead.`;
    case 'press':
      return `Press the lens down: ${fine(remedy.airMm)} of air lie under it.`;
    case 'stand-at': {
      const from = sayDoubtedLength(
        { value: remedy.distanceMm, plusMinus: remedy.plusMinusMm },
        units,
      );
      return canStandThere(remedy, printed)
        ? `Look at it from ${from}: from there its pitch is right.`
        : `Its pitch is right from ${from} alone. It was made for ${sayLength(printed.distanceMm, units)}, so where it hangs nothing can be done about it: weave it anew.`;
    }
  }
};
