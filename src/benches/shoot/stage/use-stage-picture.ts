/** The picture of the stage, drawn again whenever what it shows changes: at once coarsely, then finely. */
import type { RefObject } from 'react';
import { useEffect, useRef, useState } from 'react';
import { messageOf } from '../../../contract/errors.ts';
import type { StageDepths } from '../../../contract/stage.ts';
import type { Job } from '../../../job/schema/job.ts';
import type { StageChoices } from '../../../job/schema/stage.ts';
import type { Look, OpenScene } from '../../../studio/stage/open.ts';
import { lookAt } from '../../../studio/stage/open.ts';

/** Samples once nothing has changed for a moment. */
const FINE = 12;
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

/** One look at a time: what was wished for meanwhile is drawn next, and all between is passed over. */
const createDrawer = (
  canvas: () => HTMLCanvasElement | null,
  tell: (shown: ShownStage) => void,
) => {
  let [next, busy, over]: [Wish | undefined, boolean, boolean] = [undefined, false, false];
  let rest: ReturnType<typeof setTimeout> | undefined;
  const draw = async ({ open, job, stage, look }: Wish, samples: number): Promise<void> => {
    const drawn = await lookAt(open, job, stage, { ...look, samples });
    if (drawn === undefined || over) return;
    const { picture, depths } = drawn;
    const to = canvas();
    if (to !== null) {
      [to.width, to.height] = [picture.width, picture.height];
      to.getContext('bitmaprenderer')?.transferFromImageBitmap(picture);
      to.dataset['samples'] = String(samples);
    }
    tell({ depths, fault: undefined });
  };
  const run = async (samples: number): Promise<void> => {
    if (busy) return;
    busy = true;
    let last: Wish | undefined;
    try {
      for (let wish = next; wish !== undefined && !over; wish = next) {
        next = undefined;
        last = wish;
        await draw(wish, samples);
      }
    } catch (error) {
      tell({ depths: undefined, fault: messageOf(error) });
      last = undefined;
    }
    busy = false;
    if (last === undefined || over || samples === FINE) return;
    const fine = last;
    rest = setTimeout(() => {
      next ??= fine;
      void run(FINE);
    }, REST_MS);
  };
  return {
    want: (wish: Wish) => {
      clearTimeout(rest);
      next = wish;
      void run(1);
    },
    end: () => {
      over = true;
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
