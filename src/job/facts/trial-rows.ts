/** A trial as rows of text. */
import { SYMPTOMS } from '../../core/mend/symptoms.ts';
import { formatLengthRough, sayLengthTo, trimmed } from '../../core/units/format.ts';
import type { LengthUnit } from '../../core/units/parse.ts';
import { MM_PER_INCH, mm } from '../../core/units/units.ts';
import type { Trial } from '../schema/trial.ts';
import { bandLabelsOf } from './sides.ts';

export interface Fact {
  readonly name: string;
  readonly value: string;
}

export const factsOf = (trial: Trial, units: LengthUnit): Fact[] => {
  const rough = (lengthMm: number) => formatLengthRough(mm(lengthMm), units);
  const { printed, chosen, bandsAcross, bandsAlong } = trial;
  const { lens } = printed;
  const bandsLabel = bandLabelsOf(printed);
  const looked = SYMPTOMS.filter(({ id }) => chosen.includes(id)).map(({ label }) => label);
  const bands = (value: number | undefined) => (value === undefined ? '' : trimmed(value, 2));
  return [
    { name: 'Date', value: trial.on },
    { name: 'Outcome', value: trial.outcome },
    { name: 'Woven pitch, LPI', value: trimmed(MM_PER_INCH / printed.viewingPitchMm, 3) },
    { name: 'Pitch was', value: printed.standing },
    { name: 'View slots', value: String(printed.viewSlots) },
    { name: 'Columns', value: printed.columns },
    { name: 'Ribs', value: printed.ribs },
    {
      name: `Print, ${units}`,
      value: `${rough(printed.widthMm)} × ${rough(printed.heightMm)}`,
    },
    { name: `Viewing distance, ${units}`, value: rough(printed.distanceMm) },
    { name: 'dpi', value: `${printed.acrossDpi} × ${printed.alongDpi}` },
    {
      name: 'Lens',
      value: `${trimmed(MM_PER_INCH / lens.pitchMm, 3)} LPI, ${sayLengthTo(lens.thicknessMm, units, 3)}, index ${trimmed(lens.index, 4)}`,
    },
    { name: 'Looked like', value: looked.join(', ') },
    { name: bandsLabel.across, value: bands(bandsAcross) },
    { name: bandsLabel.along, value: bands(bandsAlong) },
    { name: 'Found', value: trial.found.join('; ') },
    { name: 'Changed for the next', value: trial.changed.join('; ') },
    { name: 'File', value: trial.file ?? '' },
    { name: 'Cost', value: trial.cost === undefined ? '' : trimmed(trial.cost, 2) },
    { name: 'Note', value: trial.note ?? '' },
  ];
};
