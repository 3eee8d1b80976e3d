/** Changes to the rig, each a step to undo. */
import type { RigChoices } from '../schema/rig.ts';
import { setRig } from '../facts/rig.ts';
import { tryChange } from '../../state/change.ts';

type Change = { readonly [Key in keyof RigChoices]?: RigChoices[Key] | undefined };

export const changeRig = (label: string, change: Change): string | undefined =>
  tryChange(label, (job) => setRig(job, change), `rig.${label}`);
