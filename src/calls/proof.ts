/** The worker that draws the tilt proof: one for each canvas, ended with it. */
import { transfer, wrap } from 'comlink';
import type {
  LookedSources,
  PainterWish,
  ProofPixels,
  ProofSize,
  ProofWorker,
} from '../contract/proof.ts';
import type { Picture, ProofView } from '../core/proof/scene.ts';
import type { ProofSources } from '../core/proof/sources.ts';
import { watchWorker } from './watch.ts';
import { spawnProofWorker } from './workers.ts';

export interface ProofCanvasTold {
  /** The graphics card is gone for good: the worker needs another canvas, and does without the card. */
  readonly onCardLost: () => void;
  /** The worker ended, does not answer, or never began. */
  readonly onGone: () => void;
}

export interface ProofDrawing {
  /** Pictures that it has already are not sent again. */
  load(sources: LookedSources): Promise<void>;
  /** @returns the print, where the page has to lay it on the canvas itself */
  paint(view: ProofView, size: ProofSize): Promise<ProofPixels | undefined>;
  end(): void;
}

/**
 * A minute without an answer: an emulated card can take seconds for its first picture, and a machine that is
 * short of memory longer.
 */
const limits = { startMs: 30_000, askEveryMs: 5000, unansweredMost: 12 };

/** Sends each picture once, by a number, for as long as it is named. */
const sender = (keep: (picture: number, content: Picture) => Promise<void>) => {
  let sent = new Map<Picture, number>();
  let serial = 0;
  return async ({ pictures }: ProofSources): Promise<(number | undefined)[]> => {
    const named = new Map<Picture, number>();
    for (const picture of pictures) {
      if (picture === undefined || named.has(picture)) continue;
      const known = sent.get(picture);
      named.set(picture, known ?? (serial += 1));
      // One at a time: a dozen copies at a stretch would hold the page up.
      if (known === undefined) await keep(serial, picture);
    }
    sent = named;
    return pictures.map((picture) => (picture === undefined ? undefined : named.get(picture)));
  };
};

/** @param canvas undefined where the browser cannot hand one over */
export const drawProof = (
  canvas: OffscreenCanvas | undefined,
  wish: PainterWish,
  { onCardLost, onGone }: ProofCanvasTold,
): ProofDrawing => {
  const thread = spawnProofWorker();
  const remote = wrap<ProofWorker>(thread);
  let calls = 0;
  let over = false;
  const end = () => {
    over = true;
    endWatch();
    thread.terminate();
  };
  const gone = () => {
    if (over) return;
    end();
    onGone();
  };
  const endWatch = watchWorker(remote, () => calls > 0, limits, {
    begun: () => undefined,
    neverBegan: gone,
    gone,
  });
  thread.addEventListener('error', gone);
  /** What was asked of a worker that ended is never answered. */
  const asked = async <T>(call: Promise<T>): Promise<T> => {
    calls += 1;
    try {
      return await call;
    } finally {
      calls -= 1;
    }
  };
  const opened = asked(
    remote.open(canvas === undefined ? undefined : transfer(canvas, [canvas]), wish),
  );
  opened
    .then(() => remote.untilCardLost())
    .then(() => over || onCardLost())
    .catch(gone);
  const numbersOf = sender((picture, content) => asked(remote.keepPicture(picture, content)));
  return {
    async load(sources) {
      await opened;
      const pictures = await numbersOf(sources);
      await asked(remote.load({ ...sources, pictures }));
    },
    async paint(view, size) {
      await opened;
      return asked(remote.paint(view, size));
    },
    end,
  };
};
