/** What an eye straight ahead sees of a flip, and where its pictures change. */
import { trimmed } from '../../../core/units/format.ts';
import { unitMeasure } from '../../../core/units/measure.ts';
import { setAhead } from '../../../job/edits/recipe.ts';
import {
  aheadChoices,
  changeAtDegrees,
  flipTurnsOf,
  furthestDegrees,
  shownAhead,
} from '../../../job/facts/flip-changes.ts';
import type { Job } from '../../../job/schema/job.ts';
import { nameAhead, sayTurn } from '../../../job/words/ahead.ts';
import { MeasureField, SelectField } from '../../../ui/index.ts';
import { useChange, useUnits } from '../../studio.ts';
import styles from './recipe.module.css';

const angle = unitMeasure(1, 1, '°', /\s*(°|deg(rees?)?)$/i);

interface Props {
  readonly job: Job;
  readonly pictures: number;
}

export const StraightAhead = ({ job, pictures }: Props) => {
  const change = useChange();
  const units = useUnits();
  const turns = flipTurnsOf(job);
  const first = turns.find(({ from, to }) => from === 0 && to === 1);
  if (first === undefined) return null;
  const shown = shownAhead(job);
  const options = [...aheadChoices(pictures), ...(shown.show === 'moved' ? [shown] : [])];
  const upright = job.ribs === 'upright';
  return (
    <>
      <div className={styles['fields']}>
        <SelectField
          label="Straight ahead"
          value={nameAhead(shown)}
          choices={options.map(nameAhead).map((label) => ({ value: label, label }))}
          onChange={(chosen) => {
            const ahead = options.find((option) => nameAhead(option) === chosen);
            if (ahead) change('what shows straight ahead', (now) => setAhead(now, ahead));
          }}
        />
        <MeasureField
          label="Change from 1 to 2 at"
          value={first.degrees}
          measure={angle}
          hint={`${upright ? 'Right' : 'Below'} of straight ahead; ${upright ? 'left' : 'above'} is negative.`}
          onCommit={(degrees, _, how) => {
            const ahead = changeAtDegrees(job, 0, degrees);
            const furthest = trimmed(furthestDegrees(job), 1);
            if (ahead === undefined)
              return `The pictures repeat beyond the zone: type an angle from −${furthest}° to ${furthest}°.`;
            return change(
              'angle of the change',
              (now) => setAhead(now, ahead),
              how === 'stepped' ? 'recipe.ahead' : undefined,
            );
          }}
        />
      </div>
      <p className={styles['turns']}>
        Changes: {turns.map((turn) => sayTurn(turn, job.ribs, units)).join(', ')}. In the hand, the
        print is turned by the same angle instead,{' '}
        {upright ? 'its right edge towards you for right' : 'its lower edge towards you for below'}.
      </p>
    </>
  );
};
