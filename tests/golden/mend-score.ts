/** What the studio makes of a careful eye's counts, held against what was really wrong. */
import { rankCauses } from '../../src/core/mend/rank.ts';
import { readCounts } from '../../src/core/mend/read-counts.ts';
import type { Cause } from '../../src/core/mend/symptoms.ts';
import type { MendCase } from './mend-cases.ts';
import { carefulEye } from './mend-eye.ts';

/** The usual budget: a quarter zone over the print (optics relation 7: ΔLPI ≤ τ / W(in)). */
export const BUDGET = 0.25;
export const WIDTH_IN = 8;

export interface Score {
  readonly causes: readonly Cause[];
  /** Ranked first: as many as were put in. */
  readonly ranked: readonly Cause[];
  readonly found: boolean;
  /** Of bands across and bands along: those of one or more, and how many of them had the wrong sign. */
  readonly signs: number;
  readonly wrongSigns: number;
  /** Corrected pitch less the right one, lines to the inch; left out where nothing could be counted. */
  readonly pitchOff?: number;
  /** Its stated ±, two standard deviations. */
  readonly pitchPlusMinus?: number;
  /** The same of skew, radians, and place, mm. */
  readonly skewOff?: number;
  readonly offsetOff?: number;
}

export const scoreOf = (one: MendCase): Score => {
  const counts = carefulEye(one.print);
  const { pitch, skew, offsetMm } = readCounts(one.setup, counts);
  // The studio knows its frames: these are neither too deep nor unlike.
  const seeing = { chosen: [], counts, tooDeep: false, unlikeFrames: false };
  const ranked = rankCauses(one.setup, seeing).slice(0, one.causes.length);
  const names = ranked.map(({ cause }) => cause);
  const { wrong } = one.print;
  const checks = [
    { true: one.trueBandsAcross, read: pitch?.bands.value, open: pitch?.orLpi !== undefined },
    { true: one.trueBandsAlong, read: skew?.bands.value, open: skew?.signKnown === false },
  ].filter((check) => check.read !== undefined && Math.abs(check.true) >= 1);
  const place = (wrong.offsetMm ?? 0) - (offsetMm?.value ?? 0);
  const printed = one.setup.sheet.viewingPitchMm;
  return {
    causes: one.causes,
    ranked: names,
    found: one.causes.every((cause) => names.includes(cause)),
    signs: checks.length,
    wrongSigns: checks.filter(
      ({ true: real, read, open }) => open || Math.sign(real) !== Math.sign(read ?? 0),
    ).length,
    ...(pitch === undefined
      ? {}
      : {
          // Through the same driver the right sheet is the true one, drawn so much larger or smaller.
          pitchOff: pitch.viewingLpi.value - one.trueLpi * (wrong.scale ?? 1),
          pitchPlusMinus: pitch.viewingLpi.plusMinus,
        }),
    ...(skew === undefined ? {} : { skewOff: skew.rad.value - (wrong.skewRad ?? 0) }),
    ...(offsetMm === undefined ? {} : { offsetOff: place - printed * Math.round(place / printed) }),
  };
};

export const shareOf = <Item>(items: readonly Item[], good: (item: Item) => boolean): number =>
  items.filter(good).length / items.length;
