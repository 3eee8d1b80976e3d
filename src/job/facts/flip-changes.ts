/** Where a flip changes as the eye moves or the print is tilted, in millimetres and degrees. */
import type { Ahead } from '../../core/frames/flip-ahead.ts';
import { aheadZones, flipChanges, movedTo } from '../../core/frames/flip-ahead.ts';
import { zoneWidth } from '../../core/lens/traced.ts';
import { deg, degToRad, mm, rad, radToDeg } from '../../core/units/units.ts';
import type { Job } from '../schema/job.ts';
import { flipOf, lensOf, movedZones } from './sheet.ts';

/** One change, to the right of straight ahead (lying ribs: below it); left and above are negative. */
export interface FlipTurn {
  /** Pictures before and after it, counted from 0. */
  readonly from: number;
  readonly to: number;
  /** How far the head moves from straight ahead, at the viewing distance. */
  readonly headMm: number;
  /** The angle at which the print is then seen: by as much the print is turned in the hand instead. */
  readonly degrees: number;
}

const zoneMmOf = (job: Job): number => zoneWidth(lensOf(job), mm(job.print.viewingDistanceMm));

/** All changes from left to right (lying ribs: from above down); none for any other recipe. */
export const flipTurnsOf = (job: Job): FlipTurn[] => {
  const flip = flipOf(job);
  if (flip === undefined) return [];
  const distance = job.print.viewingDistanceMm;
  return flipChanges(flip)
    .map(({ from, to, zones }) => {
      const headMm = zones * zoneMmOf(job);
      return { from, to, headMm, degrees: radToDeg(rad(Math.atan(headMm / distance))) };
    })
    .sort((a, b) => a.headMm - b.headMm);
};

/** Half of the zone, degrees: all repeats beyond it, so no change need lie further out. */
export const furthestDegrees = (job: Job): number =>
  radToDeg(rad(Math.atan(zoneMmOf(job) / 2 / job.print.viewingDistanceMm)));

/**
 * The choice that puts the change after picture `at` to this angle, degrees to the right; undefined where there is no
 * such change, or where the angle lies outside the zone.
 */
export const changeAtDegrees = (job: Job, at: number, degrees: number): Ahead | undefined => {
  if (Math.abs(degrees) > furthestDegrees(job)) return undefined;
  const flip = flipOf(job);
  const headMm = Math.tan(degToRad(deg(degrees))) * job.print.viewingDistanceMm;
  return flip && movedTo(flip, at, headMm / zoneMmOf(job));
};

/** What the job shows straight ahead, as the choice it is: the first of them that puts the views where they are. */
export const shownAhead = (job: Job): Ahead => {
  const flip = flipOf(job);
  const zones = movedZones(job);
  const moved: Ahead = { show: 'moved', zones };
  if (flip === undefined || job.recipe?.kind !== 'flip') return moved;
  const { ahead } = job.recipe;
  const choices = aheadChoices(flip.pictures);
  const chosen = choices.find((choice) => JSON.stringify(choice) === JSON.stringify(ahead));
  if (chosen !== undefined) return chosen;
  return choices.find((ahead) => Math.abs(aheadZones({ ...flip, ahead }) - zones) < 1e-9) ?? moved;
};

/** Each picture, and each change between two. */
export const aheadChoices = (pictures: number): Ahead[] =>
  Array.from({ length: pictures }, (_, at): Ahead[] => [
    { show: 'picture', at },
    ...(at + 1 < pictures ? [{ show: 'change', at } as const] : []),
  ]).flat();

/** What shows when the print lies in its place: "the middle view shows", "picture 1 shows". */
export const sayInPlace = (job: Job): string => {
  if (flipOf(job) === undefined) return 'the middle view shows';
  const ahead = shownAhead(job);
  if (ahead.show === 'picture') return `picture ${ahead.at + 1} shows`;
  if (ahead.show === 'change')
    return `picture ${ahead.at + 1} gives way to picture ${ahead.at + 2}`;
  return 'it shows what the proof shows straight ahead';
};
