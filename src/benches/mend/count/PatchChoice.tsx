/** The one place of the print that differs from the rest, out of nine. */
import { seeingOf } from '../../../job/facts/mend.ts';
import { useJob } from '../../studio.ts';
import { Choice } from './Choice.tsx';
import { useCounts } from './use-counts.ts';

const thirds = [-1 / 3, 0, 1 / 3] as const;
const downWords = ['top', 'middle', 'bottom'] as const;
const rightWords = ['left', 'middle', 'right'] as const;
/** Of the print, both ways. */
const PATCH_WIDTH = 0.3;
/** Half the way from one place to the next. */
const NEAR = 0.17;

/** As the print is seen; turned into across and along by the ribs. */
const places = thirds.flatMap((down, row) =>
  thirds.map((right, column) => ({
    name: `${downWords[row] ?? ''} ${rightWords[column] ?? ''}`,
    right,
    down,
  })),
);

export const PatchChoice = () => {
  const [{ patch }, change] = useCounts();
  const upright = seeingOf(useJob()).printed.ribs === 'upright';
  const inRibs = ({ right, down }: (typeof places)[number]) =>
    upright ? { across: right, along: down } : { across: down, along: right };
  const isAt = (place: (typeof places)[number]): boolean => {
    if (patch === undefined || patch === 'none') return false;
    const { across, along } = inRibs(place);
    return Math.abs(across - patch.across) < NEAR && Math.abs(along - patch.along) < NEAR;
  };
  const patchOf = (name: string | undefined) => {
    if (name === 'none') return name;
    const place = places.find((one) => one.name === name);
    return place === undefined ? undefined : { ...inRibs(place), width: PATCH_WIDTH };
  };
  return (
    <Choice
      label="One place differs"
      value={patch === 'none' ? 'none' : places.find(isAt)?.name}
      choices={[['none', 'No place does'], ...places.map(({ name }) => [name, name] as const)]}
      onChange={(name) => void change('the place that differs', { patch: patchOf(name) })}
    />
  );
};
