/** Remedies that several findings offer. */
import { setDepthGain, setViewSlots } from '../edits/consequences.ts';
import type { Remedy } from './finding.ts';

type Change = Extract<Remedy, { readonly undoLabel: string }>;

export const slotsRemedy = (count: number): Change => ({
  label: `Set view slots to ${count}`,
  undoLabel: 'view slots',
  edit: (job) => setViewSlots(job, count),
});

export const depthGainRemedy = (gain: number): Change => ({
  label: `Set depth gain to ${gain}`,
  undoLabel: 'depth gain',
  edit: (job) => setDepthGain(job, gain),
});
