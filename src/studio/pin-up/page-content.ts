/** The content of the page to pin up. */
import type { MountStage } from '../../job/facts/mount/step.ts';
import type { MountSetting } from '../../job/facts/mount/steps.ts';
import { mountFacts, mountSteps } from '../../job/facts/mount/steps.ts';
import type { Job } from '../../job/schema/job.ts';
import { cautionWords, GIVE_WAY } from '../../job/words/cautions.ts';

export interface PageContent {
  readonly name: string;
  readonly facts: readonly (readonly [string, string])[];
  readonly steps: readonly {
    readonly stage: MountStage;
    readonly title: string;
    readonly text: string;
    /** Printed at the step, in the size of its text. */
    readonly cautions: readonly string[];
  }[];
  readonly foot: string;
}

export const pageContent = (job: Job, setting: MountSetting): PageContent => {
  const steps = mountSteps(job, setting);
  return {
    name: job.name,
    facts: mountFacts(job, setting.unit),
    steps: steps.map(({ stage, title, text, cautions }) => ({
      stage,
      title,
      text,
      cautions: cautions.map((kind) => cautionWords[kind].brief),
    })),
    foot: GIVE_WAY,
  };
};
