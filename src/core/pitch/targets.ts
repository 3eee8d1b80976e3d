/** All targets that Calibrate prints: pitch strip, ghost wedge, lamp target. */
import type { LampTargetSpec } from '../colour/lamp-target.ts';
import { lampTargetPainting } from '../colour/lamp-target.ts';
import type { WedgeSpec } from '../weave/ghost-wedge.ts';
import { wedgePainting } from '../weave/ghost-wedge-layout.ts';
import type { RowSource } from './painted-rows.ts';
import { rowsOfPainting } from './painted-rows.ts';
import { stripSource } from './strip-rows.ts';
import type { StripSpec } from './strip.ts';

export type TargetSpec = StripSpec | WedgeSpec | LampTargetSpec;

/** Computes the layout once; the source then gives any rows. */
export const targetSource = (spec: TargetSpec): RowSource => {
  if (!('kind' in spec)) return stripSource(spec);
  return rowsOfPainting(
    spec.kind === 'ghost-wedge' ? wedgePainting(spec) : lampTargetPainting(spec),
  );
};
