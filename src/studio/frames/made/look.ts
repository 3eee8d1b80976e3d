/** A small look at one view before the set is made. */
import { makeView } from '../../../calls/synth.ts';
import { messageOf } from '../../../contract/errors.ts';
import { synthPlan } from '../../../job/facts/synth.ts';
import type { Studio } from '../../studio.ts';
import { openOriginal } from '../open-original.ts';
import { choicesOf, faultOf, pictureOf, sceneOf } from './scene.ts';

const LOOK_PX = 640;

/** Everything that the look depends on; undefined while there is nothing to look at. */
export const lookKeyOf = ({ document, made }: Studio): string | undefined => {
  const { job } = document.getState();
  const state = made.store.getState();
  const choices = choicesOf(job, state);
  const picture = pictureOf(job, state);
  if (state.depth === undefined || picture === undefined || job.ribs !== 'upright')
    return undefined;
  if (faultOf(job, choices) !== undefined) return undefined;
  const plan = synthPlan(job, choices);
  const shown = Math.min(state.shown, choices.views - 1);
  return JSON.stringify([picture.id, state.depth.key, job.exposureStops, plan, shown]);
};

/** @param key `lookKeyOf` this look. @param signal fires when another look is wanted. */
export const renewLook = async (
  studio: Studio,
  key: string,
  signal: AbortSignal,
): Promise<void> => {
  const { document, made } = studio;
  const { job } = document.getState();
  const state = made.store.getState();
  const picture = pictureOf(job, state);
  if (picture === undefined || state.depth === undefined) return;
  const choices = choicesOf(job, state);
  const { slides } = synthPlan(job, choices);
  const slide = slides[Math.min(state.shown, slides.length - 1)] ?? 0;
  try {
    const scene = sceneOf(job, choices, await openOriginal(studio, picture), state.depth);
    const outcome = await makeView({ ...scene, mostPx: LOOK_PX, slide }, signal);
    if (!outcome.done || signal.aborted) return;
    const { file, filled, invented } = outcome.value;
    const before = made.store.getState().look;
    made.set({ look: { key, look: { filled, invented, picture: URL.createObjectURL(file) } } });
    if (before !== undefined && 'look' in before) URL.revokeObjectURL(before.look.picture);
  } catch (error) {
    if (!signal.aborted) made.set({ look: { key, fault: messageOf(error) } });
  }
};
