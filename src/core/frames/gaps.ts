/** Numbered names: the run of numbers that the frames form, its gaps and its repeats. */
import { nameInText } from '../names/shown.ts';
import { grouped } from './grouped.ts';
import { oncePerList } from './once-per-list.ts';
import { compareNames, stemOf } from './order.ts';

/** Missing numbers between two numbers that are there. */
export interface Gap {
  /** Written like their neighbours, with leading zeros where those have them. */
  readonly first: string;
  readonly last: string;
  readonly count: bigint;
  /** Names on either side of the gap. */
  readonly after: string;
  readonly before: string;
}

/** One number carried by several names (`pose_7.png` and `pose_07.png`). */
export interface Repeat {
  readonly number: string;
  readonly names: readonly string[];
}

export interface NumberedRun {
  /** The usual step between numbers: mostly 1; 10 for every tenth picture of an animation. */
  readonly step: bigint;
  readonly gaps: readonly Gap[];
  readonly repeats: readonly Repeat[];
}

interface Member {
  readonly name: string;
  readonly digits: string;
  readonly number: bigint;
  /** Offset of the digits in the name. */
  readonly at: number;
}

/** Every way to read a name as numbered: one run of digits is the number, the rest is the key of its run. */
const readings = (name: string): { key: string; member: Member }[] => {
  const folder = name.slice(0, name.lastIndexOf('/') + 1);
  const stem = stemOf(name);
  return [...stem.matchAll(/\d+/g)].map((match) => {
    const digits = match[0];
    const rest = `${stem.slice(0, match.index)}\0${stem.slice(match.index + digits.length)}`;
    return {
      key: `${folder}${rest}`.toLowerCase(),
      member: { name, digits, number: BigInt(digits), at: folder.length + match.index },
    };
  });
};

/** The reading that joins the most names; among equals the last, where the number usually stands. */
const mainRun = oncePerList((names: readonly string[]): readonly Member[] => {
  const runs = grouped([...new Set(names)].flatMap(readings), ({ key }) => key);
  let best: Member[] = [];
  let most = 0;
  for (const run of runs.values()) {
    const different = new Set(run.map(({ member }) => member.number)).size;
    if (different < most) continue;
    most = different;
    best = run.map(({ member }) => member);
  }
  return best.sort((a, b) =>
    a.number < b.number ? -1 : a.number > b.number ? 1 : compareNames(a.name, b.name),
  );
});

/** The most frequent step; among equals the smallest. */
const usualStep = (numbers: readonly bigint[]): bigint => {
  const counts = new Map<bigint, number>();
  for (let i = 1; i < numbers.length; i++) {
    const step = numbers[i]! - numbers[i - 1]!;
    counts.set(step, (counts.get(step) ?? 0) + 1);
  }
  let best = 1n;
  for (const [step, count] of counts) {
    const most = counts.get(best) ?? 0;
    if (count > most || (count === most && step < best)) best = step;
  }
  return best;
};

const gapBetween = (left: Member, right: Member, step: bigint): Gap | undefined => {
  const distance = right.number - left.number;
  // Not a whole number of steps: another kind of number (a clock time, say), with nothing missing.
  if (distance <= step || distance % step !== 0n) return undefined;
  const padded = left.digits.startsWith('0') || right.digits.startsWith('0');
  const width = padded ? Math.min(left.digits.length, right.digits.length) : 0;
  const write = (number: bigint) => number.toString().padStart(width, '0');
  return {
    first: write(left.number + step),
    last: write(right.number - step),
    count: distance / step - 1n,
    after: left.name,
    before: right.name,
  };
};

/** The main run of numbered names, given in any order; undefined when fewer than two names share a numbering. */
export const numberedRun = (names: readonly string[]): NumberedRun | undefined => {
  const members = mainRun(names);
  const byNumber = grouped(members, ({ number }) => number);
  const groups = [...byNumber.values()];
  if (groups.length < 2) return undefined;
  const step = usualStep([...byNumber.keys()]);
  const gaps = groups.slice(1).flatMap(([right], index) => {
    const left = groups[index]!.at(-1)!;
    return gapBetween(left, right, step) ?? [];
  });
  const repeats = groups
    .filter((group) => group.length > 1)
    .map((group) => ({ number: group[0].digits, names: group.map(({ name }) => name) }));
  return { step, gaps, repeats };
};

/** "Frame 07 is missing between glasshouse_06.png and glasshouse_08.png." */
export const sayGap = ({ first, last, count, after, before }: Gap): string => {
  const what =
    count === 1n
      ? `Frame ${first} is`
      : count === 2n
        ? `Frames ${first} and ${last} are`
        : `Frames ${first} to ${last} are`;
  return `${what} missing between ${nameInText(after)} and ${nameInText(before)}.`;
};

export const sayRepeat = ({ number, names }: Repeat): string =>
  `Number ${number} occurs ${names.length === 2 ? 'twice' : `${names.length} times`}: ${names.map(nameInText).join(', ')}.`;

/** The name of a member with another number, padded in the same way. */
const nameLike = ({ name, digits, at }: Member, number: bigint): string => {
  const width = digits.startsWith('0') ? digits.length : 0;
  return (
    name.slice(0, at) + number.toString().padStart(width, '0') + name.slice(at + digits.length)
  );
};

/**
 * The names that the numbering says are missing: first those in gaps; then, up to `count` frames in all, those before
 * the first if the numbers then begin at 1, and the rest after the last.
 * @returns undefined where the names follow no numbering.
 */
export const missingNames = (names: readonly string[], count: number): string[] | undefined => {
  const run = numberedRun(names);
  const members = mainRun(names);
  const [first] = members;
  const last = members.at(-1);
  if (run === undefined || first === undefined || last === undefined) return undefined;
  const have = new Set(members.map(({ number }) => number));
  const wanted: bigint[] = [];
  for (const gap of run.gaps) {
    // A gap of thousands is a change of numbering, not so many lost frames.
    if (gap.count > 1000n) continue;
    for (let n = BigInt(gap.first); n <= BigInt(gap.last); n += run.step) wanted.push(n);
  }
  const short = () => BigInt(count - new Set(names).size - wanted.length);
  const lead = (first.number - 1n) / run.step;
  if (first.number > 1n && lead <= short() && (first.number - 1n) % run.step === 0n)
    for (let n = 1n; n < first.number; n += run.step) wanted.push(n);
  for (let n = last.number + run.step; short() > 0n; n += run.step) wanted.push(n);
  return wanted
    .filter((n) => !have.has(n))
    .sort((a, b) => (a < b ? -1 : 1))
    .map((n) => nameLike(first.digits.length <= last.digits.length ? first : last, n));
};
