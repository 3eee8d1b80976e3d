/** One step of mounting. */

export const mountStages = ['Print', 'Dry and clean', 'Square', 'Stick', 'Trim and show'] as const;
export type MountStage = (typeof mountStages)[number];

/** What can hurt someone. */
export type CautionKind =
  'blades' | 'edges' | 'adhesives' | 'rollers' | 'lamps' | 'flashing' | 'depth';

export interface MountStep {
  readonly id: string;
  readonly stage: MountStage;
  readonly title: string;
  /** What to do, one or two sentences: short enough for the page above the bench. */
  readonly text: string;
  readonly why: string;
  readonly cautions: readonly CautionKind[];
  /** Something about the job itself should be put right before this print is made. */
  readonly isWarning: boolean;
}

/** A step as it is written down: cautions and warnings only where there are some. */
export type PlainStep = Omit<MountStep, 'cautions' | 'isWarning'> &
  Partial<Pick<MountStep, 'cautions' | 'isWarning'>>;
