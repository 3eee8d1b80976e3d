/** Measured motion in the job's terms: in ribs on its print, with its key plane. */
import type { FrontVotes } from '../../core/frames/parallax/front.ts';
import type { OrderJudgement } from '../../core/frames/parallax/order.ts';
import { judgeOrder } from '../../core/frames/parallax/order.ts';
import type { PairMotion } from '../../core/frames/parallax/pair.ts';
import type { Level, PairStep, Scale, Spread } from '../../core/frames/parallax/summary.ts';
import { lenticulesOf, levelOf, spreadOf, stepsOf } from '../../core/frames/parallax/summary.ts';
import type { Job } from '../schema/job.ts';
import { areaOf, ribsAcross, sequenceOf } from './sheet.ts';

export interface MeasuredParallax {
  /** `parallaxKeyOf` the job that was measured; the motion is valid for jobs with the same key. */
  readonly key: string;
  /** Length frames − 1; undefined where the pair is not measured yet. */
  readonly pairs: readonly (PairMotion | undefined)[];
  /** Undefined until everything is measured at the finest step. */
  readonly votes: FrontVotes | undefined;
  /** Why it could not be measured. */
  readonly fault?: string;
}

/** Measured completely: all pairs, at the finest step. Softening needs this. */
export interface WholeParallax extends MeasuredParallax {
  readonly pairs: readonly PairMotion[];
  readonly votes: FrontVotes;
}

/** Everything that measured motion depends on: not the lens, the print or how all frames lie, but how single ones do. */
export const parallaxKeyOf = (job: Job): string =>
  JSON.stringify([
    job.ribs,
    sequenceOf(job).map(({ id, sceneLinear, place }) => [
      id,
      sceneLinear ? job.exposureStops : 0,
      ...(place === undefined ? [] : [place]),
    ]),
  ]);

/** From shares of the first frame to lenticules on the print. */
export const parallaxScaleOf = (job: Job): Scale => {
  const [first] = sequenceOf(job);
  if (first === undefined) return { lenticulesAcross: ribsAcross(job), keyShift: 0 };
  const area = areaOf(job, first);
  const share = job.ribs === 'upright' ? first.widthPx / area.width : first.heightPx / area.height;
  return { lenticulesAcross: ribsAcross(job) * share, keyShift: job.keyShift ?? 0 };
};

/** Frames of the sequence between one view slot and the next, when they are spread evenly. */
export const framesPerSlot = (job: Job): number =>
  sequenceOf(job).length > job.viewSlots && job.viewSlots > 1 && job.slotsByHand === undefined
    ? (sequenceOf(job).length - 1) / (job.viewSlots - 1)
    : 1;

export interface ParallaxFacts {
  readonly spread: Spread;
  /** One for each pair; empty until all pairs are measured at the finest step. */
  readonly steps: readonly PairStep[];
  readonly levels: readonly Level[];
  readonly order: OrderJudgement | undefined;
}

/** Undefined until something is measured for this job. */
export const parallaxFactsOf = (
  job: Job,
  measured: MeasuredParallax | undefined,
): ParallaxFacts | undefined => {
  if (measured === undefined || measured.key !== parallaxKeyOf(job)) return undefined;
  const scale = parallaxScaleOf(job);
  const pairs = measured.pairs.filter((pair) => pair !== undefined);
  const moved = pairs.map((pair) => lenticulesOf(pair, scale));
  const spread = spreadOf(
    moved.flatMap((steps) => [...steps]),
    framesPerSlot(job),
  );
  if (spread === undefined) return undefined;
  const { votes } = measured;
  return {
    spread,
    steps: votes === undefined ? [] : stepsOf(moved),
    levels: votes === undefined ? [] : pairs.map((pair) => levelOf(pair, scale.lenticulesAcross)),
    order: votes === undefined ? undefined : judgeOrder(votes, pairs[pairs.length >> 1]),
  };
};
