/** The list of frames that a sequence should hold, and the state of each. */
import { missingNames } from './gaps.ts';
import type { LightStep } from './light-steps.ts';
import { lightSteps } from './light-steps.ts';
import { inNaturalOrder, outOfOrder } from './order.ts';
import type { Sized } from './shapes.ts';
import { checkSizes } from './shapes.ts';

export interface Arrived extends Sized {
  readonly meanLight: number;
  readonly fingerprint?: string | undefined;
}

export interface ExpectedFrame {
  readonly name: string;
  /** Place in the sequence, counted from 0; undefined for a missing frame. */
  readonly index: number | undefined;
  readonly wrongSize: boolean;
  readonly outOfOrder: boolean;
  /** Name of an earlier frame with the same pixels. */
  readonly copyOf: string | undefined;
  /** How much brighter it is than the frames beside it, in stops; undefined while the step is ordinary. */
  readonly lightStops: number | undefined;
}

export interface Expectation {
  /** In natural order of their names. */
  readonly frames: readonly ExpectedFrame[];
  readonly missing: number;
  /** Missing frames whose names are not known. */
  readonly unnamed: number;
}

const copiesOf = (frames: readonly Arrived[]): (string | undefined)[] => {
  const seen = new Map<string, string>();
  return frames.map(({ name, fingerprint }) => {
    if (fingerprint === undefined) return undefined;
    const earlier = seen.get(fingerprint);
    if (earlier === undefined) seen.set(fingerprint, name);
    return earlier;
  });
};

/** @param frames in the order of the sequence. @param count frames that the plan asks for. */
export const expectFrames = (frames: readonly Arrived[], count: number): Expectation => {
  const names = frames.map(({ name }) => name);
  const missing = missingNames(names, count);
  const odd = new Set<Arrived>(checkSizes(frames).odd.map(({ frame }) => frame));
  const misplaced = new Set(outOfOrder(frames));
  const copies = copiesOf(frames);
  const steps = new Map<number, LightStep>(
    lightSteps(frames.map(({ meanLight }) => meanLight)).map((step) => [step.index, step]),
  );
  const arrived = frames.map((frame, index): ExpectedFrame => ({
    name: frame.name,
    index,
    wrongSize: odd.has(frame),
    outOfOrder: misplaced.has(index),
    copyOf: copies[index],
    lightStops: steps.get(index)?.stops,
  }));
  const lost = (missing ?? []).map((name): ExpectedFrame => ({
    name,
    index: undefined,
    wrongSize: false,
    outOfOrder: false,
    copyOf: undefined,
    lightStops: undefined,
  }));
  return {
    frames: inNaturalOrder([...arrived, ...lost]),
    missing: lost.length,
    unnamed: missing === undefined ? Math.max(0, count - frames.length) : 0,
  };
};
