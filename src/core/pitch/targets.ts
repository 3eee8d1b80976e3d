/** Everything that Calibrate prints: the pitch strip, the ghost wedge, the target for a lamp. */
import type { LampTargetSpec } from '../colour/lamp-target.ts';
import { lampTargetPainting } from '../colour/lamp-target.ts';
import type { WedgeSpec } from '../weave/ghost-wedge.ts';
import { wedgePainting } from '../weave/ghost-wedge-layout.ts';
import type { RowSource } from './painted-rows.ts';
import { rowsOfPainting } from './painted-rows.ts';
import { stripSource } from './strip-rows.ts';
import type { StripSpec } from './strip.ts';

export type TargetSpec = StripSpec | WedgeSpec | LampTargetSpec;

/** Lays the target out once; the source then gives any of its rows. */
export const targetSource = (spec: TargetSpec): RowSource => {
  if (!('kind' in spec)) return stripSource(spec);
  return rowsOfPainting(
    spec.kind === 'ghost-wedge' ? wedgePainting(spec) : lampTargetPainting(spec),
  );
};
