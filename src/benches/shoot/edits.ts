/** Changes to the rig, each a step to undo. */
import type { RigChoices } from '../../job/rig-schema.ts';
import { setRig } from '../../job/rig.ts';
import { tryChange } from '../../state/change.ts';

type Change = { readonly [Key in keyof RigChoices]?: RigChoices[Key] | undefined };

export const changeRig = (label: string, change: Change): string | undefined =>
  tryChange(label, (job) => setRig(job, change), `rig.${label}`);
