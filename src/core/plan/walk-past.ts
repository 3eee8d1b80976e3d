/** Prints that people walk past: how fast a flip turns, and how often it may flash. */
import type { LensSheet } from '../lens/lens.ts';
import { zoneWidth } from '../lens/traced.ts';
import type { Mm } from '../units/units.ts';
import { mm } from '../units/units.ts';

/**
 * A quick walk that is still comfortable: the highest mean of the groups measured, men in their forties, 146.2 cm/s
 * (Bohannon, Age and Ageing 26:15–19, 1997; the lowest is 127.2).
 */
export const WALKING_MM_PER_S = 1462;
/** Flashes in any one second (WCAG 2.2, 2.3.1). */
export const MOST_FLASHES = 3;

/** What turns as somebody walks past: pictures in a zone, and flashes among them. */
export interface Turning {
  readonly pictures: number;
  /** Pairs of opposing changes in light, at the worst: light and dark pictures in turn. */
  readonly flashes: number;
}

/** Of a flip, at the worst. @param plainBetween white or black between any two pictures makes a flash of each */
export const turningOf = (pictures: number, plainBetween = false): Turning => ({
  pictures,
  flashes: plainBetween ? pictures : Math.floor(pictures / 2),
});

export interface WalkPast {
  readonly secondsAPicture: number;
  readonly flashesASecond: number;
  /** From here on it flashes no more often than is allowed. */
  readonly leastDistanceMm: Mm;
}

/** Upright ribs, at walking pace along the print: a zone Z = p D / g′ of every view goes by in Z / v. */
export const walkPast = (lens: LensSheet, distance: Mm, turning: Turning): WalkPast => {
  const zone = zoneWidth(lens, distance);
  const zonesASecond = WALKING_MM_PER_S / zone;
  const flashesASecond = zonesASecond * turning.flashes;
  return {
    secondsAPicture: 1 / (zonesASecond * turning.pictures),
    flashesASecond,
    leastDistanceMm: mm((distance * flashesASecond) / MOST_FLASHES),
  };
};

/** Share of the way along the print over which two eyes see different pictures, 0 … 1: pictures × I / Z. */
export const eyesApartShare = (
  lens: LensSheet,
  distance: Mm,
  pictures: number,
  eyesApart: Mm,
): number => Math.min(1, (pictures * eyesApart) / zoneWidth(lens, distance));
