/** Fetches the loupe's dots from a worker as the window or the job changes, one question at a time. */
import type { RefObject } from 'react';
import { useEffect, useState } from 'react';
import { toWorkError } from '../../contract/errors.ts';
import type { DotWindow } from '../../preview/loupe-view.ts';
import { stackOf } from '../../studio/prepare/stack.ts';
import { askForDots } from '../../studio/proof/loupe-dots.ts';
import { useIsWeaving, useJob, useStudio, useView, useWork } from '../studio.ts';

/** Time for a drag to go on before dots are asked for. */
const SETTLE_MS = 40;

export interface LoupeDots {
  /** The window that the canvas shows just now; undefined before the first. */
  readonly shown: DotWindow | undefined;
  readonly fault: string | undefined;
  /** What the dots wait for, when they do. */
  readonly waiting: string | undefined;
}

/** Draws the window's dots into the canvas at one canvas pixel a dot. */
export const useLoupeDots = (
  canvas: RefObject<HTMLCanvasElement | null>,
  wanted: DotWindow,
): LoupeDots => {
  const studio = useStudio();
  const job = useJob();
  const printLook = useView((view) => view.printLook);
  const gamutWarning = useView((view) => view.gamutWarning);
  const prepared = useWork((work) => work.prepared);
  const wholeParallax = useWork((work) => work.wholeParallax);
  const weaving = useIsWeaving();
  const preparing = useWork((work) => work.preparing !== undefined);
  const [shown, setShown] = useState<DotWindow>();
  const [fault, setFault] = useState<string>();
  const { left, top, width, height } = wanted;
  useEffect(() => {
    const stack = stackOf(job, prepared, wholeParallax);
    // The sheet's own bands go before a look at them.
    if (stack === undefined || weaving) return undefined;
    const halt = new AbortController();
    const ask = async () => {
      const window = { left, top, width, height };
      const outcome = await askForDots(studio, job, stack, window, halt.signal);
      const element = canvas.current;
      if (!outcome.done || halt.signal.aborted || element === null) return;
      element.width = width;
      element.height = height;
      const image = new ImageData(outcome.value.pixels, width, height);
      element.getContext('2d')?.putImageData(image, 0, 0);
      setShown(window);
      setFault(undefined);
    };
    const timer = setTimeout(() => {
      ask().catch((error: unknown) => {
        if (!halt.signal.aborted) setFault(toWorkError(error).message);
      });
    }, SETTLE_MS);
    return () => {
      clearTimeout(timer);
      halt.abort();
    };
  }, [
    canvas,
    studio,
    job,
    prepared,
    wholeParallax,
    weaving,
    left,
    top,
    width,
    height,
    printLook,
    gamutWarning,
  ]);
  return { shown, fault, waiting: reasonToWait(weaving, preparing) };
};

const reasonToWait = (weaving: boolean, preparing: boolean): string | undefined => {
  if (weaving)
    return 'These dots are as they were before the weave began; they follow when it ends.';
  return preparing ? 'The frames are being prepared; the dots follow.' : undefined;
};
