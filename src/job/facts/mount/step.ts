/** One step of mounting. */

export const mountStages = ['Print', 'Dry and clean', 'Square', 'Stick', 'Trim and show'] as const;
export type MountStage = (typeof mountStages)[number];

export type CautionKind =
  'blades' | 'edges' | 'adhesives' | 'rollers' | 'lamps' | 'flashing' | 'depth';

export interface MountStep {
  readonly id: string;
  readonly stage: MountStage;
  readonly title: string;
  /** What to do, in one or two sentences: short enough for the page to pin up. */
  readonly text: string;
  readonly why: string;
  readonly cautions: readonly CautionKind[];
  /** The job should be changed before this print is made. */
  readonly isWarning: boolean;
}

/** A step without the fields that are empty. */
export type PlainStep = Omit<MountStep, 'cautions' | 'isWarning'> &
  Partial<Pick<MountStep, 'cautions' | 'isWarning'>>;
