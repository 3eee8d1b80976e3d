/** Traced rays for the drawings of the lens: the fan of one direction, and all directions together. */
import type { Standing } from '../../core/lens/focus.ts';
import { opticalGap } from '../../core/lens/lens.ts';
import { viewingCone } from '../../core/lens/traced.ts';
import { spot } from '../../core/lens/spot.ts';
import type { TracedRay } from '../../core/lens/trace.ts';
import { surfaceDepth, traceRib } from '../../core/lens/trace.ts';
import { rad } from '../../core/units/units.ts';

type StandingLens = Standing['lens'];

const FAN_RAYS = 15;
const DIRECTIONS = 25;

/** The ribs that are drawn, counted from the one that the eye looks through. */
export const RIBS = [-1, 0, 1] as const;

export const halfCone = (lens: StandingLens): number => viewingCone(lens) / 2;

export const fanOf = (lens: StandingLens, angle: number): readonly TracedRay[] =>
  traceRib(lens, { angleRad: rad(angle) }, FAN_RAYS);

/** The ribs' crests from left to right, then the flat back: place across and depth, mm. */
export const outlineOf = (lens: StandingLens): readonly (readonly [number, number])[] => {
  const { pitchMm: p, thicknessMm: t } = lens;
  const steps = Array.from({ length: 25 }, (_, place) => ((place / 24) * 2 - 1) * (p / 2));
  const crests = RIBS.flatMap((rib) =>
    steps.map((place) => [place + rib * p, surfaceDepth(lens, place)] as const),
  );
  return [...crests, [1.5 * p, t], [-1.5 * p, t]];
};

export interface Landing {
  readonly angleRad: number;
  /** Middle of the spot, from the rib's middle; undefined if no ray arrives. */
  readonly meanMm: number | undefined;
  readonly fullMm: number;
  readonly paraxialMm: number;
}

export const landingAt = (lens: StandingLens, angle: number): Landing => {
  const seen = spot(lens, { angleRad: rad(angle) });
  return {
    angleRad: angle,
    meanMm: seen?.meanMm,
    fullMm: seen?.fullMm ?? 0,
    paraxialMm: -opticalGap(lens) * Math.tan(angle),
  };
};

/** Every direction of the cone, evenly from left to right. */
export const landings = (lens: StandingLens): readonly Landing[] => {
  const half = halfCone(lens);
  return Array.from({ length: DIRECTIONS }, (_, place) =>
    landingAt(lens, half * ((2 * place) / (DIRECTIONS - 1) - 1)),
  );
};

export interface SeenSlot {
  /** 0 is the leftmost camera's. */
  readonly slot: number;
  /** 0 is the rib that the eye looks through, 1 its right neighbour, −1 its left one. */
  readonly rib: number;
}

/** The view slot at a place of the print, counted from the rib's middle (relation 3). */
export const slotAt = (placeMm: number, pitchMm: number, viewSlots: number): SeenSlot => {
  const u = placeMm / pitchMm + 0.5;
  const rib = Math.floor(u);
  return { rib, slot: Math.min(viewSlots - 1, Math.floor((1 - (u - rib)) * viewSlots)) };
};

/** "8° right", "straight ahead". */
export const sayAngle = (angle: number): string => {
  const degrees = Math.round((Math.abs(angle) * 1800) / Math.PI) / 10;
  return degrees === 0 ? 'straight ahead' : `${degrees}° ${angle > 0 ? 'right' : 'left'}`;
};

export const saySlot = ({ slot, rib }: SeenSlot, viewSlots: number): string =>
  `sees view slot ${slot + 1} of ${viewSlots}` +
  (rib === 0 ? '' : ` under the rib to the ${rib > 0 ? 'right' : 'left'}`);
