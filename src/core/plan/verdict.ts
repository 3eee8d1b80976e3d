/** Whether to buy: one grade for a lens, a printer and a size, with reasons and figures. */
import { trimmed } from '../units/format.ts';
import type { Mm } from '../units/units.ts';
import type { Fit } from './fit.ts';

export type Grade = 'well' | 'losses' | 'not';

export interface Reason {
  readonly grade: Grade;
  readonly text: string;
}

export interface Verdict {
  readonly grade: Grade;
  /** Worst first. */
  readonly reasons: readonly Reason[];
}

export interface VerdictFacts {
  readonly fit: Fit;
  readonly viewSlots: number;
  readonly toldApart: number;
  /** Spot straight ahead as a share of the rib, as a uniform strip. */
  readonly spotShare: number;
  readonly zoneMm: Mm;
  readonly eyesApartMm: Mm;
  /** Upright ribs show each eye its own view; lying ones do not. */
  readonly partsEyes: boolean;
  /** The frames are views of one scene and may share dots; flips and moments may not. */
  readonly printsDepth: boolean;
  /** Leak of the next picture by the traced lens, and the most that ghost removal can take out. */
  readonly leak?: { readonly share: number; readonly most: number };
  /** Only for a nominal pitch: the widest print that it is known well enough for, and this print’s width. */
  readonly pitch?: { readonly widestMm: Mm; readonly acrossMm: Mm };
  /** Writes a length in the shown unit; left out: whole millimetres. */
  readonly say?: (lengthMm: Mm) => string;
}

/** Our own thresholds (no source); the figures compared with them are traced or computed. */
const SMALL_LOSS = 0.01;
const SOFT_SPOT = 0.25;

const dotReason = ({ fit, viewSlots, printsDepth }: VerdictFacts): Reason => {
  const { dots, wholeFrames, leftOver } = fit;
  const shown = trimmed(dots, 2);
  // tests/golden/more-views: views that share dots show depth no worse.
  const grade = printsDepth ? 'well' : 'losses';
  if (wholeFrames < 2)
    return { grade: 'not', text: `only ${shown} dots under a rib: no room for two frames` };
  if (viewSlots > wholeFrames)
    return {
      grade,
      text:
        `${viewSlots} view slots on ${shown} dots under a rib: ` +
        (printsDepth ? 'depth shares dots without loss' : 'some must share a dot'),
    };
  if (leftOver / dots > SMALL_LOSS)
    return {
      grade,
      text:
        `${wholeFrames} whole frames under a rib and ${trimmed(leftOver, 2)} of a dot over, ${trimmed((100 * leftOver) / dots, 0)} % shared between neighbours` +
        (printsDepth ? ', which depth does not mind' : ''),
    };
  return { grade: 'well', text: `${wholeFrames} whole frames under a rib, nothing left over` };
};

const toldReason = ({ toldApart, viewSlots, fit }: VerdictFacts): Reason => {
  if (toldApart < 2) return { grade: 'not', text: 'an eye cannot tell even two frames apart' };
  if (toldApart >= viewSlots)
    return { grade: 'well', text: `an eye can tell all ${viewSlots} view slots apart` };
  // Slots beyond the dots are counted against the dots already; the lens does what it can.
  if (toldApart >= fit.wholeFrames)
    return {
      grade: 'well',
      text: `an eye tells ${toldApart} apart, the ${fit.wholeFrames} whole frames among them`,
    };
  return {
    grade: 'losses',
    text: `an eye tells ${toldApart} frames apart, not ${Math.min(viewSlots, fit.wholeFrames)}`,
  };
};

const spotReason = ({ spotShare }: VerdictFacts): Reason => ({
  grade: spotShare > SOFT_SPOT ? 'losses' : 'well',
  text:
    `one direction spreads over ${trimmed(100 * spotShare, 0)} % of a rib` +
    (spotShare > SOFT_SPOT ? ': a soft lens' : ''),
});

const wholeMm = (lengthMm: Mm): string => `${trimmed(lengthMm, 0)} mm`;

const eyeReason = (facts: VerdictFacts): Reason[] => {
  const { zoneMm, eyesApartMm, viewSlots, partsEyes, say = wholeMm } = facts;
  const zone = `the viewing zone is ${say(zoneMm)} wide`;
  if (!partsEyes) return [{ grade: 'well', text: `${zone}; lying ribs show no depth` }];
  if (viewSlots < 3) return [{ grade: 'well', text: zone }];
  if (zoneMm < eyesApartMm)
    return [{ grade: 'not', text: `${zone}, narrower than two eyes: depth turns inside out` }];
  if (zoneMm / viewSlots > eyesApartMm)
    return [{ grade: 'losses', text: `${zone}: both eyes see the same view, so no depth` }];
  return [{ grade: 'well', text: zone }];
};

const percent = (share: number): string =>
  share > 1 ? 'over 100 %' : `${trimmed(100 * share, 0)} %`;

const ghostReason = ({ leak, printsDepth, viewSlots, fit }: VerdictFacts): Reason[] =>
  leak === undefined ||
  leak.share <= leak.most ||
  // Views beyond the dots leak into each other by design.
  (printsDepth && viewSlots > fit.wholeFrames)
    ? []
    : [
        {
          grade: 'losses',
          text: `each view carries a ghost of the next, ${percent(leak.share)}, more than the ${percent(leak.most)} that ghost removal takes out: depth bears it, flips and moments do not`,
        },
      ];

const pitchReason = ({ pitch, say = wholeMm }: VerdictFacts): Reason[] =>
  pitch === undefined || pitch.acrossMm <= pitch.widestMm
    ? []
    : [
        {
          grade: 'losses',
          text: `the pitch is nominal, known well enough for ${say(pitch.widestMm)} across the ribs, not for ${say(pitch.acrossMm)}: prove it with a strip`,
        },
      ];

const rank: Readonly<Record<Grade, number>> = { not: 0, losses: 1, well: 2 };

export const verdict = (facts: VerdictFacts): Verdict => {
  const reasons = [
    dotReason(facts),
    toldReason(facts),
    ...eyeReason(facts),
    ...ghostReason(facts),
    ...pitchReason(facts),
    spotReason(facts),
  ].sort((a, b) => rank[a.grade] - rank[b.grade]);
  return { grade: reasons[0]?.grade ?? 'well', reasons };
};
