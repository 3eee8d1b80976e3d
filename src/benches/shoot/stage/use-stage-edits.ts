/** Changes of the stage: each is one step, and takes the nearest and farthest that is then seen along with it. */
import { useRef } from 'react';
import { lookKey } from '../../../job/edits/edit.ts';
import { setRig } from '../../../job/facts/rig.ts';
import type { Job } from '../../../job/schema/job.ts';
import type { OpenScene } from '../../../studio/stage/open.ts';
import { withReach } from '../../../studio/stage/reach.ts';
import { useStudio } from '../../studio.ts';

export type StageEdit = (label: string, edit: (job: Job) => Job) => void;

export const useStageEdits = ({ scene }: OpenScene): StageEdit => {
  const studio = useStudio();
  const halt = useRef<AbortController>(undefined);
  return (label, edit) => {
    const fold = lookKey(`stage.${label}`);
    if (studio.change(label, edit, fold) !== undefined) return;
    halt.current?.abort();
    const own = (halt.current = new AbortController());
    const { job } = studio.document.getState();
    void withReach(job, scene, own.signal)
      .then((seen) => {
        const now = studio.document.getState().job;
        // Whatever changed meanwhile is seen from elsewhere, and measured by itself.
        if (seen === undefined || own.signal.aborted || now !== job) return;
        const { near, far } = seen.rig ?? {};
        studio.change(label, (same) => setRig(same, { near, far }), fold);
      })
      // The view itself says what is wrong.
      .catch(() => undefined);
  };
};
