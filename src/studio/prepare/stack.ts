/** A job's frames in the weave's terms, and what each of them was prepared for. */
import type { PreparedFrame } from '../../contract/frames.ts';
import type { FrameStack } from '../../contract/weave.ts';
import { ownSamplesAlong } from '../../core/weave/reduce.ts';
import { dotsAlong } from '../../core/weave/sheet-spec.ts';
import { easeOf } from '../../job/facts/ghost-ease.ts';
import { trimOf } from '../../job/facts/ghost.ts';
import type { WholeParallax } from '../../job/facts/parallax.ts';
import { areaOf, sheetSpecOf, withBleed } from '../../job/facts/sheet.ts';
import type { SlotPicture } from '../../job/facts/slot-pictures.ts';
import { slotPicturesOf } from '../../job/facts/slot-pictures.ts';
import { softenKeyOf } from '../../job/facts/soften.ts';
import { typedSamplesAlong } from '../../job/facts/title.ts';
import type { Job } from '../../job/schema/job.ts';
import type { Prepared } from '../../state/work.ts';

/** Rows that are kept of every frame: as many as the finest frame has. */
export const alongSamplesOf = (job: Job): number => {
  const sheet = sheetSpecOf(job);
  return Math.max(
    1,
    // A title that is a picture is resampled to the pictures it lies on.
    Math.min(dotsAlong(sheet), typedSamplesAlong(job)),
    ...slotPicturesOf(job)
      .pictures.filter(({ ground }) => ground === undefined)
      .map(({ frame }) => ownSamplesAlong(sheet, withBleed(job, areaOf(job, frame)))),
  );
};

/** A key of everything that a prepared frame depends on. Equal keys: the same pixels. */
export const keyMaker = (job: Job, wholeParallax: WholeParallax | undefined) => {
  const sheet = sheetSpecOf(job);
  const sheetKey = [
    sheet.widthDots,
    sheet.heightDots,
    sheet.acrossDpi,
    sheet.alongDpi,
    sheet.ribs,
    sheet.viewingPitchMm,
    sheet.lensPitchMm,
    sheet.offsetMm,
  ];
  const along = alongSamplesOf(job);
  const soften = softenKeyOf(job, wholeParallax);
  return ({ frame, area, ground }: SlotPicture): string => {
    const ease = ground === undefined ? easeOf(job, frame.id) : undefined;
    return JSON.stringify([
      sheetKey,
      along,
      area,
      frame.sceneLinear && ground === undefined ? job.exposureStops : 0,
      ...(soften === undefined || ground !== undefined ? [] : [soften]),
      ...(frame.light === undefined || ground !== undefined ? [] : [frame.light]),
      ...(ease === undefined ? [] : [{ ease }]),
    ]);
  };
};

/** A key of everything that has to be prepared for a job. */
export const signatureOf = (job: Job, wholeParallax: WholeParallax | undefined): string => {
  const keyOf = keyMaker(job, wholeParallax);
  return JSON.stringify(slotPicturesOf(job).pictures.map((one) => [one.id, keyOf(one)]));
};

/** @param frames one for each picture that the job needs. */
export const stackWith = (job: Job, frames: readonly PreparedFrame[]): FrameStack => {
  const { mixes, slots } = slotPicturesOf(job);
  const trim = trimOf(job);
  return {
    frames,
    slots,
    ...(mixes.length === 0 ? {} : { mixes }),
    ...(trim === undefined ? {} : { trim }),
    ...(job.lamp === undefined ? {} : { lamp: job.lamp }),
  };
};

/** Undefined until each slot's frame is prepared for this job. */
export const stackOf = (
  job: Job,
  prepared: ReadonlyMap<string, Prepared>,
  wholeParallax: WholeParallax | undefined,
): FrameStack | undefined => {
  const { pictures } = slotPicturesOf(job);
  if (pictures.length === 0) return undefined;
  const keyOf = keyMaker(job, wholeParallax);
  const frames = pictures.flatMap((picture) => {
    const entry = prepared.get(picture.id);
    return entry?.key === keyOf(picture) ? [entry.frame] : [];
  });
  return frames.length < pictures.length ? undefined : stackWith(job, frames);
};
