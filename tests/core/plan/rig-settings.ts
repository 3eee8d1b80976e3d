/** Rigs that the tests of cameras set up. */
import type { LensSheet } from '../../../src/core/lens/lens.ts';
import { tracedGap } from '../../../src/core/lens/traced.ts';
import type { RigSetting } from '../../../src/core/plan/rig.ts';
import { mm } from '../../../src/core/units/units.ts';

const lens: LensSheet = { pitchMm: mm(25.4 / 60), thicknessMm: mm(0.84), index: 1.5685 };
export const setting: RigSetting = {
  lens,
  viewSlots: 12,
  gain: 0.4,
  printWidthMm: mm(203.2),
  printHeightMm: mm(254),
  keyWidth: 4,
  keyDistance: 7.5,
};

/** The gain at which neighbouring cameras stand so far apart: relation 5 solved for γ. */
export const gainFor = (one: RigSetting, step: number): number =>
  (step * one.viewSlots * tracedGap(one.lens)) / (one.keyDistance * one.lens.pitchMm);

/** Two eyes 65 apart, 1000 from a screen 518.4 × 324. */
export const pair: RigSetting = (() => {
  const one = {
    ...setting,
    viewSlots: 2,
    printWidthMm: mm(518.4),
    printHeightMm: mm(324),
    keyWidth: 518.4,
    keyDistance: 1000,
  };
  return { ...one, gain: gainFor(one, 65) };
})();
