/** What stands on the page above the bench. */
import type { CautionKind, MountStage } from '../../job/facts/mount/step.ts';
import type { MountSetting } from '../../job/facts/mount/steps.ts';
import { mountFacts, mountSteps } from '../../job/facts/mount/steps.ts';
import type { Job } from '../../job/schema/job.ts';
import type { CautionWords } from '../../job/words/cautions.ts';
import { cautionWords, GIVE_WAY } from '../../job/words/cautions.ts';

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
