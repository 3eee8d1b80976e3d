/** Fetches the loupe's dots from a worker as the window or the job changes, one question at a time. */
import type { RefObject } from 'react';
import { useEffect, useRef, useState } from 'react';
import { toWorkError } from '../../contract/errors.ts';
import { sheetSpecOf } from '../../job/selectors.ts';
import { weaveWindow } from '../../jobs/weave.ts';
import { useJob, useWork } from '../../state/hooks.ts';
import { stackOf } from './keep-prepared.ts';
import type { DotWindow } from './loupe-view.ts';

/** Time for a drag to go on before dots are asked for. */
const SETTLE_MS = 40;

export interface LoupeDots {
  /** The window that the canvas shows just now; undefined before the first. */
  readonly shown: DotWindow | undefined;
  readonly fault: string | undefined;
}

/** Draws the window's dots into the canvas at one canvas pixel a dot. */
export const useLoupeDots = (
  canvas: RefObject<HTMLCanvasElement | null>,
  wanted: DotWindow,
): LoupeDots => {
  const job = useJob();
  const prepared = useWork((work) => work.prepared);
  const weaving = useWork((work) => work.weave.stage === 'weaving');
  const [dots, setDots] = useState<LoupeDots>({ shown: undefined, fault: undefined });
  const { left, top, width, height } = wanted;
  const latest = useRef(0);
  useEffect(() => {
    const stack = stackOf(job, prepared);
    // The sheet's own bands go before a look at them.
    if (stack === undefined || weaving) return undefined;
    const turn = (latest.current += 1);
    const halt = new AbortController();
    const ask = async () => {
      const window = { left, top, width, height };
      const outcome = await weaveWindow(
        { sheet: sheetSpecOf(job), stack, ...window },
        { signal: halt.signal },
      );
      const context = canvas.current?.getContext('2d');
      if (!outcome.done || turn !== latest.current || canvas.current === null || !context) return;
      canvas.current.width = width;
      canvas.current.height = height;
      context.putImageData(new ImageData(outcome.value.pixels, width, height), 0, 0);
      setDots({ shown: window, fault: undefined });
    };
    const timer = setTimeout(() => {
      ask().catch((error: unknown) => {
        if (turn === latest.current)
          setDots(({ shown }) => ({ shown, fault: toWorkError(error).message }));
      });
    }, SETTLE_MS);
    return () => {
      clearTimeout(timer);
      halt.abort();
    };
  }, [canvas, job, prepared, weaving, left, top, width, height]);
  return dots;
};
