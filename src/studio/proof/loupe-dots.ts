/** Dots of a window of the sheet at 1:1, for the loupe. */
import { weaveWindow } from '../../calls/weave.ts';
import type { Outcome } from '../../contract/errors.ts';
import type { FrameStack, WindowResult } from '../../contract/weave.ts';
import { sheetSpecOf } from '../../job/facts/sheet.ts';
import type { Job } from '../../job/schema/job.ts';
import { lookOf } from '../colour/look.ts';
import type { Studio } from '../studio.ts';
import type { DotWindow } from '../../preview/loupe-view.ts';

/** @throws StudioError */
export const askForDots = async (
  studio: Studio,
  job: Job,
  stack: FrameStack,
  { left, top, width, height }: DotWindow,
  signal: AbortSignal,
): Promise<Outcome<WindowResult>> => {
  const look = await lookOf(studio, job, studio.view.getState()).catch(() => undefined);
  const window = { stack, left, top, width, height, look };
  return weaveWindow({ sheet: sheetSpecOf(job), ...window }, { signal });
};
