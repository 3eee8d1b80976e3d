/**
 * How many frames to make for each use of the lens, and why. The figures are computed; what follows from them is
 * common practice (no source) or our own choice, and the reasons say which.
 */
import { trimmed } from '../units/format.ts';
import type { Mm } from '../units/units.ts';
import { mm, rad, radToDeg } from '../units/units.ts';
import type { Fit } from './fit.ts';

export interface FrameAdvice {
  /** 1: this use is not possible, and the reasons say why. */
  readonly frames: number;
  /** View slots to hold them over; left out: one each. */
  readonly slots?: number;
  /** Sentences; the first says what sets the number. */
  readonly reasons: readonly string[];
}

export interface AdviceFacts {
  readonly fit: Fit;
  readonly toldApart: number;
  readonly zoneMm: Mm;
  /** At which the zone is that wide. */
  readonly distanceMm: Mm;
  readonly eyesApartMm: Mm;
  /** Upright ribs show each eye its own view; lying ones do not. */
  readonly partsEyes: boolean;
  /** Writes a length in the shown unit; left out: whole millimetres. */
  readonly say?: (lengthMm: Mm) => string;
}

/** A frame half as wide as an eye can tell apart still smooths the turn; finer ones are wasted. */
const SMOOTH = 2;
/** Its own place, and a guard on each side. */
const PLACES_A_PICTURE = 3;
const MOST_PICTURES = 4;

const toDots = ({ dots, wholeFrames }: Fit) =>
  `${trimmed(dots, 2)} dots under a rib give ${wholeFrames} frames a dot of their own`;

const noRoom = (fit: Fit): FrameAdvice => ({
  frames: 1,
  reasons: [`${trimmed(fit.dots, 2)} dots under a rib leave no room for two frames.`],
});

/** At least a view for each eye: the fewest views with which two eyes never see the same one. */
const leastForDepth = ({ zoneMm, eyesApartMm }: AdviceFacts) =>
  Math.max(2, Math.ceil(zoneMm / eyesApartMm));

/** Traced in tests/golden/more-views: 0.1 to 0.5 dB with blended columns, over 1 dB with crisp ones. */
const moreViews = ({ wholeFrames }: Fit): string =>
  `Where views cost nothing, ${2 * wholeFrames} true ones over the same dots sharpen depth a little more; crossfades between views do not.`;

/**
 * The zone is p D / g′ wide (relation 4): it grows with the distance, and with it the frames that two eyes need. So
 * one looks from nearer, or through a lens of a narrower cone, 2 atan of half that zone over D.
 */
const whatFits = (
  { zoneMm, distanceMm, eyesApartMm, say = wholeMm }: AdviceFacts,
  most: number,
): string => {
  const widest = most * eyesApartMm;
  const farthest = Math.floor((distanceMm * widest) / zoneMm);
  const cone = Math.floor(radToDeg(rad(2 * Math.atan(widest / (2 * distanceMm)))));
  return `look from at most ${say(mm(farthest))}, or use a lens with a cone of at most about ${cone}°`;
};

const wholeMm = (lengthMm: Mm): string => `${trimmed(lengthMm, 0)} mm`;

const forDepth = (facts: AdviceFacts): FrameAdvice => {
  const { fit, toldApart, zoneMm, eyesApartMm, say = wholeMm } = facts;
  if (!facts.partsEyes)
    return {
      frames: 1,
      reasons: ['Lying ribs show both eyes the same view: there is no depth.'],
    };
  if (zoneMm < eyesApartMm)
    return {
      frames: 1,
      reasons: [
        `The viewing zone is ${say(zoneMm)} wide, narrower than two eyes: depth turns inside out. Look from at least ${say(mm(Math.ceil((facts.distanceMm * eyesApartMm) / zoneMm)))}, or use a lens with a wider cone.`,
      ],
    };
  const least = leastForDepth(facts);
  const most = Math.min(fit.wholeFrames, SMOOTH * toldApart);
  const tooFew = `Two eyes ${say(eyesApartMm)} apart in a zone of ${say(zoneMm)} need ${least} frames to see a view each`;
  if (most < least)
    return {
      frames: 1,
      reasons: [`${tooFew}; there is room for ${most}: ${whatFits(facts, most)}.`],
    };
  const setter =
    fit.wholeFrames <= SMOOTH * toldApart
      ? `${toDots(fit)}, and depth gains from each: neighbours that mix a little only make the turn smoother.`
      : `An eye tells ${toldApart} apart. Twice as many still smooth the turn; the rest of the ${fit.wholeFrames} that have a dot of their own would be rendered for nothing.`;
  return {
    frames: most,
    reasons: [setter, `${tooFew}.`, ...(most < fit.wholeFrames ? [] : [moreViews(fit)])],
  };
};

const forFlips = ({ fit, toldApart }: AdviceFacts): FrameAdvice => {
  const places = Math.min(fit.wholeFrames, toldApart);
  if (fit.wholeFrames < 2) return noRoom(fit);
  if (places < 2) return tellsOne;
  const pictures = Math.max(2, Math.min(MOST_PICTURES, Math.floor(places / PLACES_A_PICTURE)));
  const wants = `Each picture of a flip needs three places under the rib, its own and a guard on each side, and there are ${places} that have a dot and can be told apart.`;
  return {
    frames: pictures,
    slots: Math.max(pictures, places),
    reasons: [
      places < 2 * PLACES_A_PICTURE ? `${wants} Even two will ghost.` : wants,
      `So keep ${Math.max(pictures, places)} view slots: the recipe Flip, on Frames, holds each picture over its own and lays the guards between.`,
      ...(pictures === MOST_PICTURES
        ? ['A hand that tilts seldom finds more than four (common practice).']
        : []),
    ],
  };
};

const tellsOne: FrameAdvice = {
  frames: 1,
  reasons: ['An eye cannot tell even two frames apart: the lens spreads too widely.'],
};

const forAnimation = ({ fit, toldApart }: AdviceFacts): FrameAdvice => {
  if (fit.wholeFrames < 2) return noRoom(fit);
  if (toldApart < 2) return tellsOne;
  const eyeSets = toldApart < fit.wholeFrames;
  return {
    frames: Math.min(fit.wholeFrames, toldApart),
    reasons: [
      eyeSets
        ? `Each moment must be told from the next, and an eye tells ${toldApart} apart; ${fit.wholeFrames} have a dot of their own, but more than ${toldApart} run into one another.`
        : `${toDots(fit)}; an eye could tell ${toldApart} apart, but a moment without its own dot is not printed cleanly.`,
    ],
  };
};

export const frameAdvice = (
  facts: AdviceFacts,
): { depth: FrameAdvice; flip: FrameAdvice; animation: FrameAdvice } => ({
  depth: facts.fit.wholeFrames < 2 ? noRoom(facts.fit) : forDepth(facts),
  flip: forFlips(facts),
  animation: forAnimation(facts),
});
