/** What stands on the page above the bench. */
import type { CautionKind, MountStage } from '../../../job/mount-step.ts';
import type { Job } from '../../../job/job.ts';
import type { MountSetting } from '../../../job/mount-steps.ts';
import { mountFacts, mountSteps } from '../../../job/mount-steps.ts';
import type { CautionWords } from '../caution-words.ts';
import { cautionWords, GIVE_WAY } from '../caution-words.ts';

export interface PageContent {
  readonly name: string;
  readonly facts: readonly (readonly [string, string])[];
  readonly steps: readonly {
    readonly stage: MountStage;
    readonly title: string;
    readonly text: string;
  }[];
  readonly cautions: readonly CautionWords[];
  readonly foot: string;
}

export const pageContent = (job: Job, setting: MountSetting): PageContent => {
  const steps = mountSteps(job, setting);
  const kinds = new Set<CautionKind>(steps.flatMap(({ cautions }) => cautions));
  return {
    name: job.name,
    facts: mountFacts(job, setting.unit),
    steps,
    cautions: [...kinds].map((kind) => cautionWords[kind]),
    foot: GIVE_WAY,
  };
};
