/** Weaving the ghost wedge, and the edits that come of reading it. */
import { MOST_LEAK } from '../../core/weave/ghost.ts';
import { PATCHES } from '../../core/weave/ghost-wedge.ts';
import { wedgeSize } from '../../core/weave/ghost-wedge-layout.ts';
import { trimmed } from '../../core/units/format.ts';
import type { GhostTrimOfJob } from '../../job/schema/ghost.ts';
import { keepWedge, takePatch, wedgePlanOf, withoutTrim } from '../../job/facts/ghost.ts';
import { tryChange } from '../../state/change.ts';
import { documentStore } from '../../state/document.ts';
import { today } from '../../job/edits/strip.ts';
import { targetRun, targetToWrite } from './target.ts';

const run = targetRun('wedge');

export const stopWedge = (): void => run.stop();

/** Does nothing while one is being woven. @param strongest trim of its last patch. */
export const weaveWedge = (strongest: number): Promise<void> =>
  run.start(() => {
    const { job } = documentStore.getState();
    const plan = wedgePlanOf(job, strongest);
    if (!plan.ok) throw new Error(plan.message);
    const { spec } = plan;
    const percent = trimmed(100 * strongest, 1);
    return targetToWrite({
      spec,
      size: wedgeSize(spec),
      name: `ghost wedge ${percent} percent ${spec.viewSlots} slots`,
      title: `Ghost wedge to ${percent} %`,
      description:
        `${PATCHES} patches, trimmed from 0 to ${percent} %, ${spec.viewSlots} view slots, ribs ` +
        `${spec.ribs}, to be read from ${spec.readFromMm} mm. Print at 100 %, no scaling, the same ` +
        'way round as the sheet.',
      onWhole: () =>
        void tryChange('ghost wedge woven', (now) => keepWedge(now, strongest, today())),
    });
  });

/** @returns why it was refused. */
export const readPatch = (patch: number): string | undefined => {
  if (!(patch >= 1 && patch <= PATCHES))
    return `Patches are numbered 1 to ${PATCHES}; type 6.5 for one between 6 and 7.`;
  const wedge = documentStore.getState().job.ghostWedge;
  if (wedge === undefined)
    return 'Weave a ghost wedge first: its patches say what the number means.';
  return tryChange('ghost trim', (job) => takePatch(job, wedge, patch));
};

/** A leak that is typed was read from no wedge, and its doubt is not known. */
export const typeLeak = (leak: number): string | undefined => {
  if (!(leak >= 0 && leak <= MOST_LEAK))
    return `A leak is from 0 to ${100 * MOST_LEAK} %: more cannot be trimmed; use fewer view slots.`;
  return tryChange('leak trimmed', (job) => {
    if (job.ghostTrim === undefined) return job;
    const { plusMinus: _, ...trim } = job.ghostTrim;
    return { ...job, ghostTrim: { ...trim, leak } };
  });
};

export const chooseContrast = (contrast: GhostTrimOfJob['contrast']): void =>
  void tryChange('ghost trim contrast', (job) =>
    job.ghostTrim === undefined ? job : { ...job, ghostTrim: { ...job.ghostTrim, contrast } },
  );

export const removeTrim = (): void => void tryChange('ghost trim', withoutTrim);
