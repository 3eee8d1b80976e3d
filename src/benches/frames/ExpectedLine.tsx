import { useMemo, useState } from 'react';
import type { ExpectedFrame } from '../../core/frames/expected.ts';
import { expectFrames } from '../../core/frames/expected.ts';
import { nameInText } from '../../core/names/shown.ts';
import { trimmed } from '../../core/units/format.ts';
import { ownFrames } from '../../job/facts/made.ts';
import { sequenceOf } from '../../job/facts/sheet.ts';
import { FiguresTable, Prose } from '../../ui/index.ts';
import { useJob } from '../studio.ts';

const stateOf = (frame: ExpectedFrame): string => {
  if (frame.index === undefined) return 'missing';
  const stops = frame.lightStops;
  const odd = [
    ...(frame.wrongSize ? ['wrong size'] : []),
    ...(frame.outOfOrder ? ['out of order'] : []),
    ...(frame.copyOf === undefined ? [] : [`same pixels as ${frame.copyOf}`]),
    ...(stops === undefined
      ? []
      : [`${trimmed(Math.abs(stops), 2)} stops ${stops < 0 ? 'darker' : 'brighter'}`]),
  ];
  return odd.length === 0 ? 'present' : `present, ${odd.join(', ')}`;
};

/** A longer list is not read name by name. */
const EACH_AT_MOST = 200;

interface Line {
  readonly first: ExpectedFrame;
  readonly last: ExpectedFrame;
  readonly state: string;
}

/** One line a frame; of a long list, neighbours that are alike and stand side by side share a line. */
const linesOf = (expected: readonly ExpectedFrame[]): Line[] => {
  const lines: Line[] = [];
  for (const frame of expected) {
    const state = stateOf(frame);
    const line = lines.at(-1);
    const sideBySide =
      frame.index === undefined || Math.abs(frame.index - (line?.last.index ?? NaN)) === 1;
    if (expected.length > EACH_AT_MOST && line?.state === state && sideBySide)
      lines[lines.length - 1] = { ...line, last: frame };
    else lines.push({ first: frame, last: frame, state });
  }
  return lines;
};

const placeOf = ({ index }: ExpectedFrame): string => (index === undefined ? '–' : `${index + 1}`);
const upTo = (first: string, last: string): string =>
  first === last ? first : `${first} to ${last}`;

/** How many frames are here and how many are wanted, and what is odd about them. */
export const useExpected = () => {
  const job = useJob();
  const { viewSlots, recipe } = job;
  // A flip is made of its pictures, whatever the number of slots that they are held over.
  const wanted = recipe?.kind === 'flip' ? recipe.pictures.length : viewSlots;
  const frames = sequenceOf(job);
  const own = ownFrames(frames);
  const made = frames.length - own.length;
  const count = made > 0 ? own.length : wanted;
  const expectation = useMemo(() => expectFrames(own, count), [own, count]);
  const { frames: expected, missing, unnamed } = expectation;
  const odd = expected.filter((frame) => stateOf(frame) !== 'present').length - missing;
  return {
    expected,
    unnamed,
    missing: missing + unnamed,
    says:
      `${frames.length} here for ` +
      (recipe?.kind === 'flip' ? `a flip of ${wanted} pictures` : `${viewSlots} view slots`) +
      (missing + unnamed > 0 ? `, ${missing + unnamed} missing` : ', none missing') +
      (odd > 0 ? `, ${odd} to look at` : '') +
      (made > 0 ? `; ${made} of them made, not rendered` : '') +
      '.',
  };
};

/** What should be there, in one line; name by name, as it fills up, for who opens it. */
export const ExpectedLine = ({ expected, unnamed, says }: ReturnType<typeof useExpected>) => {
  const [open, setOpen] = useState(false);
  return (
    <div>
      <p>{says}</p>
      {unnamed > 0 && (
        <Prose>The names carry no numbers in common, so which are missing cannot be told.</Prose>
      )}
      <FiguresTable
        caption="Expected frames, one by one"
        head={['Name', 'Place', 'How it stands']}
        // Of thousands of frames nothing is drawn before it is asked for.
        rows={(open ? linesOf(expected) : []).map(({ first, last, state }) => [
          upTo(nameInText(first.name), nameInText(last.name)),
          upTo(placeOf(first), placeOf(last)),
          state,
        ])}
        onToggle={setOpen}
      />
    </div>
  );
};
