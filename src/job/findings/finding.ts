/** One thing the studio thinks will go wrong, with its number and its remedy. */
import type { Job } from '../schema/job.ts';

export type Severity = 'problem' | 'caution' | 'note';
export type BenchName =
  'plan' | 'shoot' | 'calibrate' | 'frames' | 'weave' | 'mount' | 'mend' | 'workshop';

export interface Finding {
  /** Stays the same while the finding is the same. */
  readonly id: string;
  readonly severity: Severity;
  readonly title: string;
  /** The figure it rests on, with its unit. */
  readonly figure: string;
  readonly reason: string;
  readonly remedy: string;
  /** A press that carries the remedy out, or leads to where it can be. */
  readonly action?: Remedy;
  /** Another way, where there is a choice. */
  readonly otherAction?: Remedy;
  /** The bench that says the same frame by frame: while it is open, the finding need not be shown. */
  readonly toldOn?: BenchName;
}

export type Remedy =
  | { readonly label: string; readonly undoLabel: string; readonly edit: (job: Job) => Job }
  /** `part` where that bench shows its parts one at a time. */
  | { readonly label: string; readonly goTo: BenchName; readonly part?: string };

/** What is left to say beside a bench. */
export const besideBench = (found: readonly Finding[], bench: BenchName): readonly Finding[] =>
  found.filter(({ toldOn }) => toldOn !== bench);

/** The findings among what the looks gave, in their order. */
export const foundIn = (looks: readonly (Finding | undefined)[]): Finding[] =>
  looks.filter((look) => look !== undefined);
