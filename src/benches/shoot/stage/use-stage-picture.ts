/** The picture of the stage, drawn again whenever what it shows changes: at once coarsely, then finely. */
import type { RefObject } from 'react';
import { useEffect, useRef, useState } from 'react';
import { messageOf } from '../../../contract/errors.ts';
import type { StageDepths } from '../../../contract/stage.ts';
import type { Job } from '../../../job/schema/job.ts';
import type { StageChoices } from '../../../job/schema/stage.ts';
import type { Look, OpenScene } from '../../../studio/stage/open.ts';
import { lookAt } from '../../../studio/stage/open.ts';

/** Samples once nothing has changed for a moment; fewer where the graphics card is slow. */
const FINE = 12;
const FAIR = 4;
const SLOW_MS = 500;
const REST_MS = 350;

export interface ShownStage {
  readonly depths: StageDepths | undefined;
  readonly fault: string | undefined;
}

interface Wish {
  readonly open: OpenScene;
  readonly job: Job;
  readonly stage: StageChoices;
  readonly look: Omit<Look, 'samples'>;
}

/** One look at a time. What was wished for meanwhile is drawn next, all between is passed over, and a fine look gives way. */
const createDrawer = (
  canvas: () => HTMLCanvasElement | null,
  tell: (shown: ShownStage) => void,
) => {
  let next: { readonly wish: Wish; readonly samples: number } | undefined;
  let busy = false;
  let fine: AbortController | undefined;
  let rest: ReturnType<typeof setTimeout> | undefined;
  const over = new AbortController();

  const draw = async ({ open, job, stage, look }: Wish, samples: number): Promise<boolean> => {
    fine = samples > 1 ? new AbortController() : undefined;
    const drawn = await lookAt(open, job, stage, { ...look, samples }, fine?.signal);
    if (drawn === undefined || over.signal.aborted) return false;
    const { picture, depths } = drawn;
    const to = canvas();
    if (to !== null) {
      [to.width, to.height] = [picture.width, picture.height];
      to.getContext('bitmaprenderer')?.transferFromImageBitmap(picture);
      to.dataset['samples'] = String(samples);
    }
    tell({ depths, fault: undefined });
    return true;
  };

  const run = async (): Promise<void> => {
    if (busy) return;
    busy = true;
    while (next !== undefined && !over.signal.aborted) {
      const { wish, samples } = next;
      next = undefined;
      const began = performance.now();
      const drawn = await draw(wish, samples).catch((error: unknown) => {
        tell({ depths: undefined, fault: messageOf(error) });
        return false;
      });
      if (drawn && samples === 1) finelyAfter(wish, performance.now() - began);
    }
    busy = false;
  };

  const finelyAfter = (wish: Wish, tookMs: number): void => {
    rest = setTimeout(() => {
      next ??= { wish, samples: tookMs < SLOW_MS ? FINE : FAIR };
      void run();
    }, REST_MS);
  };

  return {
    want: (wish: Wish) => {
      clearTimeout(rest);
      fine?.abort();
      next = { wish, samples: 1 };
      void run();
    },
    end: () => {
      over.abort();
      fine?.abort();
      clearTimeout(rest);
    },
  };
};

/** @param key everything the picture depends on */
export const useStagePicture = (
  canvas: RefObject<HTMLCanvasElement | null>,
  key: string,
  wish: Wish,
): ShownStage => {
  const [shown, setShown] = useState<ShownStage>({ depths: undefined, fault: undefined });
  const drawer = useRef<ReturnType<typeof createDrawer>>(undefined);
  const latest = useRef(wish);
  useEffect(() => {
    latest.current = wish;
  });
  useEffect(() => {
    const made = createDrawer(() => canvas.current, setShown);
    drawer.current = made;
    return () => made.end();
  }, [canvas]);
  useEffect(() => {
    drawer.current?.want(latest.current);
  }, [key]);
  return shown;
};
