/** The layout of the top view on the screen. */
import { rigOf, rigRange } from '../../core/plan/rig.ts';
import type { Job } from '../schema/job.ts';
import { keyDistanceOf, rigSettingOf } from './rig.ts';

/** CSS pixels for the cameras at the bottom and the words at the top. */
const BELOW = 74;
const ABOVE = 12;

export interface Band {
  readonly quality: 'sharp' | 'soft' | 'broken';
  readonly top: number;
  readonly bottom: number;
}

/** One scale both ways, so that angles are true. Screen y grows downwards, towards the cameras. */
export const layTopView = (job: Job, width: number) => {
  const setting = rigSettingOf(job);
  const rig = rigOf(setting);
  const [sharp, soft] = [rigRange(setting, 1), rigRange(setting, 2)];
  const height = Math.round(Math.min(560, Math.max(360, width * 0.72)));
  const distance = keyDistanceOf(job);
  const wanted = Math.max(
    distance * 1.5,
    distance + 1.15 * Math.min(sharp.behind, distance * 2),
    distance + 1.1 * Math.min(job.rig?.far ?? 0, distance * 4),
  );
  const plot = height - BELOW - ABOVE;
  const perUnit = plot / wanted;
  const cameraY = height - BELOW;
  /** Of a depth behind the key plane, scene units. */
  const yOf = (z: number) => Math.max(ABOVE, Math.min(cameraY, cameraY - (distance + z) * perUnit));
  const xOf = (x: number) => width / 2 + x * perUnit;
  const bands: Band[] = [
    { quality: 'broken', top: ABOVE, bottom: yOf(soft.behind) },
    { quality: 'soft', top: yOf(soft.behind), bottom: yOf(sharp.behind) },
    { quality: 'sharp', top: yOf(sharp.behind), bottom: yOf(-sharp.front) },
    { quality: 'soft', top: yOf(-sharp.front), bottom: yOf(-soft.front) },
    { quality: 'broken', top: yOf(-soft.front), bottom: cameraY },
  ];
  return {
    ...{ width, height, rig, distance, sharp, soft, perUnit, cameraY, yOf, xOf },
    bands: bands.filter(({ top, bottom }) => bottom - top > 0.5),
    /** Depth behind the key plane at a height on the screen. */
    depthAt: (y: number) => (cameraY - y) / perUnit - distance,
    /** How far depths reach, scene units from the cameras. */
    reach: wanted,
  };
};

/** Half the height of a grip and of the strip that catches the pointer, CSS pixels. */
export const HALF_GRIP = 13;

/** The part of a band for its name: the larger one if the key plane's line runs through it. */
export const partForName = ({ top, bottom }: Band, keyY: number): Pick<Band, 'top' | 'bottom'> => {
  if (keyY <= top || keyY >= bottom) return { top, bottom };
  return keyY - top > bottom - keyY ? { top, bottom: keyY } : { top: keyY, bottom };
};

/** The gain's grip is on its own line, or below it if it would cover the key plane's line. */
export const gainGripY = (keyY: number, gainY: number): number =>
  Math.max(gainY, keyY + 2 * HALF_GRIP + 1);

export type TopViewLayout = ReturnType<typeof layTopView>;

/** The layout of a job on the scale of another layout. */
export const onScaleOf = (job: Job, held: TopViewLayout): TopViewLayout => {
  const { perUnit, cameraY, width } = held;
  const own = layTopView(job, width);
  const factor = perUnit / own.perUnit;
  const within = (y: number) => Math.max(ABOVE, Math.min(cameraY, y));
  const bands = own.bands.map(({ quality, top, bottom }) => ({
    quality,
    top: top <= ABOVE ? ABOVE : within(cameraY - (cameraY - top) * factor),
    bottom: within(cameraY - (cameraY - bottom) * factor),
  }));
  return {
    ...own,
    ...{ perUnit, cameraY, height: held.height, reach: held.reach, depthAt: held.depthAt },
    yOf: (z) => within(cameraY - (own.distance + z) * perUnit),
    xOf: (x) => width / 2 + x * perUnit,
    bands: bands.filter(({ top, bottom }) => bottom - top > 0.5),
  };
};
