/** Findings about frames that are missing, copied, of another brightness or out of order. */
import { lightSteps } from '../../core/frames/light-steps.ts';
import { inNaturalOrder, outOfOrder } from '../../core/frames/order.ts';
import { nameInText } from '../../core/names/shown.ts';
import { trimmed } from '../../core/units/format.ts';
import type { Finding } from './finding.ts';
import { foundIn } from './finding.ts';
import type { Frame, Job } from '../schema/job.ts';
import { ownFrames, ownRun } from '../facts/made.ts';
import { sequenceOf } from '../facts/sheet.ts';

const NAMED_AT_MOST = 3;
const listed = (names: readonly string[]): string =>
  names.slice(0, NAMED_AT_MOST).map(nameInText).join(', ') +
  (names.length > NAMED_AT_MOST ? ' and more' : '');
const frames = (count: number) => `${count} ${count === 1 ? 'frame' : 'frames'}`;

const gone = (job: Job): Finding | undefined => {
  const run = ownRun(job.frames);
  const count = (run?.gaps ?? []).reduce((sum, gap) => sum + Number(gap.count), 0);
  const [first] = run?.gaps ?? [];
  if (first === undefined) return undefined;
  return {
    id: 'frames-missing',
    severity: 'caution',
    title: count === 1 ? 'A frame is missing' : `${count} frames are missing`,
    figure: `between ${first.after} and ${first.before}`,
    reason: 'Where a frame is left out, the picture takes a double step as the head moves past.',
    remedy: 'Render or find what is missing, and add it: it goes to its place by its number.',
    action: { label: 'Go to Frames', goTo: 'frames', part: 'frames' },
    toldOn: 'frames',
  };
};

/** A slot that was filled by hand with one of these frames follows the even spread again. */
const withoutFrames = (job: Job, ids: ReadonlySet<string>): Job => ({
  ...job,
  frames: job.frames.filter(({ id }) => !ids.has(id)),
  ...(job.slotsByHand === undefined
    ? {}
    : { slotsByHand: job.slotsByHand.map((id) => (ids.has(id) ? '' : id)) }),
});

const copied = (job: Job): Finding | undefined => {
  const seen = new Set<string>();
  const copies = job.frames.filter(({ fingerprint }) => {
    if (fingerprint === undefined) return false;
    if (seen.has(fingerprint)) return true;
    seen.add(fingerprint);
    return false;
  });
  if (copies.length === 0) return undefined;
  return {
    id: 'frames-duplicated',
    severity: 'caution',
    title: copies.length === 1 ? 'A frame is there twice' : `${copies.length} frames are copies`,
    figure: listed(copies.map(({ name }) => name)),
    reason:
      'Their pixels are the very same as an earlier frame’s: the movement stands still there, or a render went wrong.',
    remedy: 'Take the copies out, unless the picture is meant to rest.',
    action: {
      label: copies.length === 1 ? 'Take the copy out' : 'Take the copies out',
      undoLabel: 'removing copies',
      edit: (current) => withoutFrames(current, new Set(copies.map(({ id }) => id))),
    },
  };
};

const flickers = (job: Job): Finding | undefined => {
  const sequence = sequenceOf(job);
  const steps = lightSteps(
    sequence.map(({ meanLight, light }) => meanLight * 2 ** (light?.stops ?? 0)),
  );
  const odd = inNaturalOrder(
    steps.flatMap(({ index, stops }) => {
      const frame = sequence[index];
      return frame === undefined ? [] : [{ name: frame.name, stops }];
    }),
  );
  const [first] = odd;
  if (first === undefined) return undefined;
  const { stops } = first;
  return {
    id: 'frames-brightness',
    severity: 'caution',
    title:
      odd.length === 1
        ? 'A frame differs in brightness'
        : `${odd.length} frames differ in brightness`,
    figure: `${nameInText(first.name)}: ${trimmed(Math.abs(stops), 2)} stops ${stops < 0 ? 'darker' : 'brighter'} than those beside it`,
    reason: `${listed(odd.map(({ name }) => name))}: the print flickers there as the head moves past.`,
    remedy:
      'Look at it: a light that was off, a render that broke off, another exposure. Make it again.',
    action: { label: 'Go to Frames', goTo: 'frames', part: 'frames' },
  };
};

const shuffled = (job: Job): Finding | undefined => {
  const own = ownFrames(sequenceOf(job));
  const astray = inNaturalOrder(outOfOrder(own).flatMap((index) => own[index] ?? []));
  const [first] = astray;
  if (first === undefined) return undefined;
  return {
    id: 'frames-out-of-order',
    severity: 'note',
    title: `${frames(astray.length)} out of order`,
    figure: listed(astray.map(({ name }) => name)),
    reason: 'They do not stand where their names would put them.',
    remedy: 'Sort by name, unless they were laid so on purpose.',
    action: {
      label: 'Sort by name',
      undoLabel: 'sorting by name',
      edit: (current) => ({ ...current, frames: inNaturalOrder<Frame>(current.frames) }),
    },
  };
};

export const arrivalFindings = (job: Job): Finding[] =>
  foundIn([gone(job), copied(job), flickers(job), shuffled(job)]);
