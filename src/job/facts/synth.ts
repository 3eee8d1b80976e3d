/** Views to be made from one picture and its depths: where their cameras are, and how far things move. */
import type { DepthMeaning } from '../../core/frames/synth/depth-map.ts';
import { parallaxPart } from '../../core/plan/depth.ts';
import type { Rig, RigSetting } from '../../core/plan/rig.ts';
import { rigOf } from '../../core/plan/rig.ts';
import { mm } from '../../core/units/units.ts';
import type { Job } from '../schema/job.ts';
import { depthGainOf } from './plan.ts';
import { rigSettingOf } from './rig.ts';

export interface SynthChoices {
  readonly meaning: DepthMeaning['kind'];
  /** Depths are given in scene units, or in millimetres at the print's size. */
  readonly unit: 'scene' | 'print';
  /** From the rig's key plane, in `unit`, below 0 in front of it. For grey maps that have two ends. */
  readonly nearest: number;
  readonly farthest: number;
  /** The depth of the key plane, in `unit`. 0: the rig's key plane. */
  readonly keyZ: number;
  readonly gain: number;
  readonly views: number;
  /** The view that the picture is, from 0; undefined: the middle of the row. */
  readonly seenFrom: number | undefined;
}

/** From the job's rig. Without nearest or farthest thing, a tenth of the cameras' distance. */
export const synthDefaults = (job: Job, unit: SynthChoices['unit'] = 'scene'): SynthChoices => {
  const { keyDistance, keyWidth, printWidthMm } = rigSettingOf(job);
  const size = unit === 'scene' ? 1 : keyWidth / printWidthMm;
  const inUnit = (length: number): number => Number((length / size).toPrecision(12));
  const tenth = Number((keyDistance / 10).toPrecision(2));
  return {
    meaning: 'near-white',
    unit,
    nearest: -inUnit(job.rig?.near ?? tenth),
    farthest: inUnit(job.rig?.far ?? tenth),
    keyZ: 0,
    gain: depthGainOf(job),
    views: job.viewSlots,
    seenFrom: undefined,
  };
};

const settingOf = (job: Job, { views, gain }: SynthChoices): RigSetting => ({
  ...rigSettingOf(job),
  viewSlots: views,
  gain,
});

/** The size of the chosen unit in scene units. */
const unitOf = (rig: Rig, { unit }: SynthChoices): number => (unit === 'scene' ? 1 : rig.scale);

export interface SynthPlan {
  readonly meaning: DepthMeaning;
  /** Scene units. */
  readonly distance: number;
  readonly keyZ: number;
  /** For each view, the share of the frame's width by which infinity moves; 0 is the picture's own place. */
  readonly slides: readonly number[];
}

/** Relation 5 places the cameras; a thing moves by its part of what infinity moves (relation 6). */
export const synthPlan = (job: Job, choices: SynthChoices): SynthPlan => {
  const rig = rigOf(settingOf(job, choices));
  const unit = unitOf(rig, choices);
  const { meaning: kind, nearest, farthest, seenFrom } = choices;
  const own = seenFrom === undefined ? 0 : (rig.cameras[seenFrom]?.x ?? 0);
  return {
    meaning:
      kind === 'from-camera' || kind === 'from-key'
        ? { kind, unit }
        : { kind, nearest: nearest * unit, farthest: farthest * unit },
    distance: rig.keyDistance,
    keyZ: choices.keyZ * unit,
    slides: rig.cameras.map(({ x }) => (x - own) / rig.keyWidth),
  };
};

/** Lenticules that a thing at `z` (in the chosen unit) moves from view to view, with the chosen key plane. */
export const lenticulesAt = (job: Job, choices: SynthChoices, z: number): number => {
  const setting = settingOf(job, choices);
  const rig = rigOf(setting);
  const unit = unitOf(rig, choices);
  const partOf = (depth: number) => parallaxPart(depth * unit, mm(rig.keyDistance));
  return ((rig.step / rig.scale) * (partOf(z) - partOf(choices.keyZ))) / setting.lens.pitchMm;
};
