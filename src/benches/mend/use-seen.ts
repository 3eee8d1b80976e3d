/** The person's own frames, small, as the pictures of this bench are drawn from them. */
import { useMemo } from 'react';
import type { Faults, MendSetup } from '../../core/mend/fault.ts';
import type { SeenFrames, SeenScene } from '../../core/mend/seen.ts';
import { seenFrames, seenScene } from '../../core/mend/seen.ts';
import { withViewColours } from '../../core/mend/view-colours.ts';
import { blurOf } from '../../job/facts/eye.ts';
import { seeingOf, setupOf } from '../../job/facts/mend.ts';
import { sheetSpecOf } from '../../job/facts/sheet.ts';
import type { Job } from '../../job/schema/job.ts';
import { slotsReady } from '../../core/proof/scene.ts';
import { proofSceneOf } from '../../studio/proof/proof-scene.ts';
import { useJob, useStudio, useWork } from '../studio.ts';

/** Equal keys: the same pictures. What is seen and logged of prints changes nothing of the frames. */
const drawnKeyOf = ({ seeing: _seeing, trials: _trials, ...job }: Job): string =>
  JSON.stringify(job);

/** Undefined until the first frame is prepared. @param longestPx of a picture. */
export const useSeenFrames = (longestPx: number): SeenFrames | undefined => {
  const studio = useStudio();
  const drawnKey = drawnKeyOf(useJob());
  const prepared = useWork((work) => work.prepared);
  return useMemo(() => {
    // The job of that key; read here, since every count typed makes another one.
    const { job } = studio.document.getState();
    if (drawnKeyOf(job) !== drawnKey) return undefined;
    const scene = proofSceneOf(job, prepared);
    const pictures = slotsReady(scene).flatMap((frame) => scene.frames[frame] ?? []);
    if (pictures.length === 0 || pictures.length !== scene.slots.length) return undefined;
    const scale = longestPx / Math.max(scene.widthMm, scene.heightMm);
    const px = (lengthMm: number) => Math.max(1, Math.round(lengthMm * scale));
    return seenFrames(pictures, sheetSpecOf(job), px(scene.widthMm), px(scene.heightMm));
  }, [studio, drawnKey, prepared, longestPx]);
};

/** The frames with the colours of their views laid over, where that is wanted. */
export const useColoured = (
  frames: SeenFrames | undefined,
  wanted: boolean,
): SeenFrames | undefined =>
  useMemo(
    () => (wanted && frames !== undefined ? withViewColours(frames) : frames),
    [frames, wanted],
  );

/** A picture of the frames with faults, ready to be drawn at any tilt. @param faultsOf stays the same. */
export const useSeenScene = (
  frames: SeenFrames | undefined,
  faultsOf: (setup: MendSetup) => Faults,
): SeenScene | undefined => {
  const job = useJob();
  const key = JSON.stringify([seeingOf(job).printed, blurOf(job, 0)]);
  return useMemo(() => {
    if (frames === undefined) return undefined;
    const [printed, blur] = JSON.parse(key) as [
      ReturnType<typeof seeingOf>['printed'],
      ReturnType<typeof blurOf>,
    ];
    const setup = setupOf(printed);
    return seenScene(setup, faultsOf(setup), frames, blur);
  }, [frames, faultsOf, key]);
};
