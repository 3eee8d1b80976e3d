/** Looks at a clip, and keeps what is chosen of it. */
import { lookAtClip as look } from '../../../calls/clip.ts';
import type { ClipFacts } from '../../../contract/clip.ts';
import { messageOf } from '../../../contract/errors.ts';
import { readPicks, spreadEvenly } from '../../../core/frames/clip-picks.ts';
import type { Studio } from '../../studio.ts';
import type { Clip, ClipChoice } from './state.ts';

const spread = (first: number, last: number, count: number): ClipChoice => {
  const frames = spreadEvenly(first, last, count);
  return { first, last, count: frames.length, frames };
};

/** Looks at the clip, and proposes as many frames as the job has view slots. */
export const lookAtClip = async (studio: Studio, { id, file }: Clip): Promise<void> => {
  const { clips, tasks, document } = studio;
  const { job, jobId } = document.getState();
  const own = clips.begin(id);
  await tasks.run({ kind: 'clip', jobId }, async (ended) => {
    const signal = AbortSignal.any([own, ended]);
    try {
      const report = (share: number) => {
        if (!signal.aborted) clips.stage(id, { kind: 'looking', share });
      };
      const outcome = await look({ file, name: file.name }, { signal, report });
      if (!outcome.done) return clips.drop(id);
      const facts = outcome.value;
      const choice = spread(0, facts.timesS.length - 1, job.viewSlots);
      clips.stage(id, { kind: 'choosing', facts, choice });
    } catch (error) {
      if (signal.aborted) return clips.drop(id);
      clips.stage(id, { kind: 'failed', message: messageOf(error) });
    }
  });
};

/** What a field changes; frames are counted from 1, as the person does. */
export type ChoiceEdit =
  | { readonly first: number }
  | { readonly last: number }
  | { readonly count: number }
  | { readonly typed: string };

const isWhole = (value: number, least: number, most: number): boolean =>
  Number.isInteger(value) && value >= least && value <= most;

const edited = (
  edit: ChoiceEdit,
  { first, last, count, frames }: ClipChoice,
  { timesS }: ClipFacts,
): ClipChoice | string => {
  const total = timesS.length;
  if ('typed' in edit) {
    const read = readPicks(edit.typed, total);
    return typeof read === 'string'
      ? read
      : {
          first: Math.min(first, ...read),
          last: Math.max(last, ...read),
          count: read.length,
          frames: read,
        };
  }
  if ('first' in edit)
    return isWhole(edit.first, 1, last + 1)
      ? spread(edit.first - 1, last, Math.max(count, 1))
      : `The first frame must be a whole number from 1 to ${last + 1}.`;
  if ('last' in edit)
    return isWhole(edit.last, first + 1, total)
      ? spread(first, edit.last - 1, count)
      : `The last frame must be a whole number from ${first + 1} to ${total}.`;
  const most = last - first + 1;
  return isWhole(edit.count, 1, most)
    ? spread(first, last, edit.count)
    : `There are ${most} frames from the first to the last: take 1 to ${most} of them.` +
        (frames.length > most ? ' Widen the stretch for more.' : '');
};

/** @returns the sentence that says what is wrong with it; then nothing has changed. */
export const choose = ({ clips }: Studio, clip: Clip, edit: ChoiceEdit): string | undefined => {
  if (clip.stage.kind !== 'choosing') return undefined;
  const { facts, choice } = clip.stage;
  const next = edited(edit, choice, facts);
  if (typeof next === 'string') return next;
  clips.stage(clip.id, { kind: 'choosing', facts, choice: next });
  return undefined;
};
