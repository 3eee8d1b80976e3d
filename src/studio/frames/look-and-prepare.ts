/** Looks at a file that becomes a frame, and prepares it for the sheet while it is decoded. */
import { lookAt, lookAtAndPrepare } from '../../calls/frames.ts';
import type { Outcome } from '../../contract/errors.ts';
import type { FrameFacts } from '../../contract/frames.ts';
import { addFrames } from '../../job/edits/frames.ts';
import { slotPicturesOf } from '../../job/facts/slot-pictures.ts';
import type { Frame, Job } from '../../job/schema/job.ts';
import type { Prepared } from '../../state/work.ts';
import type { Floor } from '../floor.ts';
import { PROOF_PX } from '../prepare/prepare-pictures.ts';
import { settingOf } from '../prepare/request.ts';
import { keyMaker } from '../prepare/stack.ts';

interface FileToLookAt {
  readonly id: string;
  readonly name: string;
  readonly file: Blob;
}

export interface Looked {
  readonly frame: Frame;
  readonly facts: FrameFacts;
  /** Undefined if it was not prepared, or preparing failed. */
  readonly prepared: Prepared | undefined;
}

const frameOf = ({ id, name, file }: FileToLookAt, facts: FrameFacts): Frame => {
  const { widthPx, heightPx, kind, sceneLinear, profile, meanLight, fingerprint } = facts;
  return {
    id,
    name,
    byteLength: file.size,
    widthPx,
    heightPx,
    kind,
    sceneLinear,
    ...(profile === undefined ? {} : { profile }),
    meanLight,
    fingerprint,
  };
};

/**
 * How to prepare a frame that joins the job; undefined if it fills no slot. It is a guess, because frames that
 * come later may be finer or change what is printed.
 */
const guess = (floor: Floor, job: Job, frame: Frame) => {
  const joined = addFrames(job, [frame]);
  const picture = slotPicturesOf(joined).pictures.find(({ id }) => id === frame.id);
  if (picture === undefined) return undefined;
  const key = keyMaker(joined, floor.work.getState().wholeParallax)(picture);
  return { key, setting: settingOf(floor, joined, picture, PROOF_PX) };
};

/**
 * @param job the job that the frame joins
 * @param prepare whether the frame is likely to fill a slot
 * @throws StudioError
 */
export const lookAtFrame = async (
  floor: Floor,
  file: FileToLookAt,
  job: Job,
  { prepare, signal }: { readonly prepare: boolean; readonly signal: AbortSignal },
): Promise<Outcome<Looked>> => {
  const options = { exposureStops: job.exposureStops };
  if (!prepare) {
    const looked = await lookAt(file.file, file.name, options, { signal });
    if (!looked.done) return looked;
    const { value: facts } = looked;
    return { done: true, value: { frame: frameOf(file, facts), facts, prepared: undefined } };
  }
  let key = '';
  const settingFor = (facts: FrameFacts) => {
    const guessed = guess(floor, job, frameOf(file, facts));
    key = guessed?.key ?? '';
    return guessed?.setting;
  };
  const outcome = await lookAtAndPrepare(file.file, file.name, options, settingFor, { signal });
  if (!outcome.done) return outcome;
  const { facts, prepared: made } = outcome.value;
  const prepared = made && { key, frame: made.frame, proof: made.proof };
  return { done: true, value: { frame: frameOf(file, facts), facts, prepared } };
};
