/** The list of frames that a sequence should hold, and how each of them stands. */
import { missingNames } from './gaps.ts';
import type { LightStep } from './light-steps.ts';
import { lightSteps } from './light-steps.ts';
import { compareNames, outOfOrder } from './order.ts';
import type { Sized } from './shapes.ts';
import { checkSizes } from './shapes.ts';

export interface Arrived extends Sized {
  readonly meanLight: number;
  readonly fingerprint?: string | undefined;
}

export interface ExpectedFrame {
  readonly name: string;
  /** Its place in the sequence, counted from 0; undefined when it is missing. */
  readonly index: number | undefined;
  readonly wrongSize: boolean;
  readonly outOfOrder: boolean;
  /** Name of an earlier frame of the very same pixels. */
  readonly copyOf: string | undefined;
  /** How much brighter than those beside it, in stops; undefined while that is ordinary. */
  readonly lightStops: number | undefined;
}

export interface Expectation {
  /** In natural order of their names, as they would lie in their folder. */
  readonly frames: readonly ExpectedFrame[];
  readonly missing: number;
  /** Frames that are lacking without a name that could be told. */
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

/** @param count frames that the plan asks for. */
export const expectFrames = (frames: readonly Arrived[], count: number): Expectation => {
  const names = frames.map(({ name }) => name);
  const missing = missingNames(names, count);
  const odd = new Set<Arrived>(checkSizes(frames).odd.map(({ frame }) => frame));
  const astray = new Set(outOfOrder(frames));
  const copies = copiesOf(frames);
  const steps = new Map<number, LightStep>(
    lightSteps(frames.map(({ meanLight }) => meanLight)).map((step) => [step.index, step]),
  );
  const arrived = frames.map((frame, index): ExpectedFrame => ({
    name: frame.name,
    index,
    wrongSize: odd.has(frame),
    outOfOrder: astray.has(index),
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
    frames: [...arrived, ...lost].sort((a, b) => compareNames(a.name, b.name)),
    missing: lost.length,
    unnamed: missing === undefined ? Math.max(0, count - frames.length) : 0,
  };
};
