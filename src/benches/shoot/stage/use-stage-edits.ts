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
    const measure = async (): Promise<void> => {
      const { job } = studio.document.getState();
      const seen = await withReach(job, scene, own.signal);
      if (seen === undefined || own.signal.aborted) return;
      const now = studio.document.getState().job;
      if (now.stage?.sceneId !== job.stage?.sceneId) return;
      // Whatever changed meanwhile may be seen from elsewhere.
      if (now !== job) return measure();
      const { near, far } = seen.rig ?? {};
      studio.change(label, (same) => setRig(same, { near, far }), fold);
    };
    // The view itself says what is wrong.
    measure().catch(() => undefined);
  };
};
