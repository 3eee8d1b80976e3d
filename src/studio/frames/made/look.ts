/** A small look at one view before the set is made. The newest wish counts; older ones are dropped. */
import { makeView } from '../../../calls/synth.ts';
import { synthPlan } from '../../../job/facts/synth.ts';
import { documentStore } from '../../../state/document.ts';
import { choicesOf, faultOf, pictureOf, sceneOf } from './scene.ts';
import { setSynth, synthStore } from './state.ts';

const LOOK_PX = 640;

let halt = new AbortController();

/** What a look shows depends on; undefined while there is nothing to look at. */
export const lookKeyOf = (): string | undefined => {
  const { job } = documentStore.getState();
  const state = synthStore.getState();
  const choices = choicesOf(job, state);
  const picture = pictureOf(job, state);
  if (state.depth === undefined || picture === undefined || job.ribs !== 'upright')
    return undefined;
  if (faultOf(job, choices) !== undefined) return undefined;
  const plan = synthPlan(job, choices);
  const shown = Math.min(state.shown, choices.views - 1);
  return JSON.stringify([picture.id, state.depth.key, job.exposureStops, plan, shown]);
};

export const renewLook = async (key: string): Promise<void> => {
  halt.abort();
  halt = new AbortController();
  const { signal } = halt;
  const { job } = documentStore.getState();
  const state = synthStore.getState();
  const picture = pictureOf(job, state);
  if (picture === undefined || state.depth === undefined) return;
  const choices = choicesOf(job, state);
  const { slides } = synthPlan(job, choices);
  const slide = slides[Math.min(state.shown, slides.length - 1)] ?? 0;
  try {
    const scene = await sceneOf(job, choices, picture, state.depth, LOOK_PX);
    const outcome = await makeView({ ...scene, slide }, signal);
    if (!outcome.done || signal.aborted) return;
    const { file, filled, invented } = outcome.value;
    const before = synthStore.getState().look;
    setSynth({ look: { key, look: { filled, invented, picture: URL.createObjectURL(file) } } });
    if (before !== undefined && 'look' in before) URL.revokeObjectURL(before.look.picture);
  } catch (error) {
    if (!signal.aborted)
      setSynth({ look: { key, fault: error instanceof Error ? error.message : String(error) } });
  }
};
