/** When the tilt proof is drawn, and what becomes of it when its worker does not draw any more. */
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type { ProofCanvasTold } from '../../src/calls/proof.ts';
import type { PainterWish } from '../../src/contract/proof.ts';
import type { ProofView } from '../../src/core/proof/scene.ts';
import { noSlide } from '../../src/core/proof/scene.ts';
import type { ProofSources } from '../../src/core/proof/sources.ts';
import { createTiltProof } from '../../src/studio/proof/tilt-proof.ts';

const viewFrom = (place: number): ProofView => ({
  place,
  slide: noSlide,
  blur: { spot: 0, dot: 0 },
});

const sources: ProofSources = {
  pictures: [undefined],
  mixes: [],
  slots: [0],
  ribs: 'upright',
  widthMm: 10,
  heightMm: 10,
  lenticules: 10,
  acrossStart: 0,
  acrossSpan: 10,
};

/** A worker that draws when the test says so. */
class SlowWorker {
  readonly painted: number[] = [];
  loads = 0;
  /** What happens on the page while it loads. */
  meanwhile = (): void => undefined;
  ended = false;
  readonly wish: PainterWish;
  readonly told: ProofCanvasTold;
  readonly #waiting: (() => void)[] = [];

  constructor(wish: PainterWish, told: ProofCanvasTold) {
    this.wish = wish;
    this.told = told;
  }

  load = () => {
    this.loads += 1;
    this.meanwhile();
    return Promise.resolve();
  };

  paint = ({ place }: ProofView) =>
    new Promise<undefined>((resolve) => {
      this.painted.push(place);
      this.#waiting.push(() => resolve(undefined));
    });

  end = () => {
    this.ended = true;
  };

  finish = async () => {
    this.#waiting.shift()?.();
    for (let turn = 0; turn < 5; turn += 1) await Promise.resolve();
  };
}

let frames: FrameRequestCallback[] = [];
const nextFrame = async () => {
  const due = frames;
  frames = [];
  for (const callback of due) callback(0);
  for (let turn = 0; turn < 5; turn += 1) await Promise.resolve();
};

const open = () => {
  const workers: SlowWorker[] = [];
  const troubles: string[] = [];
  const host = document.createElement('div');
  const proof = createTiltProof(
    host,
    'best',
    (trouble) => troubles.push(trouble),
    (_canvas, wish, told) => {
      const worker = new SlowWorker(wish, told);
      workers.push(worker);
      return worker;
    },
  );
  proof.setSize(20, 10);
  proof.setSources(sources);
  const last = () => {
    const worker = workers.at(-1);
    if (worker === undefined) throw new Error('No worker was begun.');
    return worker;
  };
  return { proof, workers, troubles, host, last };
};

beforeEach(() => {
  frames = [];
  vi.stubGlobal('requestAnimationFrame', (callback: FrameRequestCallback) => frames.push(callback));
  vi.stubGlobal('cancelAnimationFrame', () => undefined);
});
afterEach(() => vi.unstubAllGlobals());

describe('when it is drawn', () => {
  it('is once for many turns in a screen frame, and not at all while nothing turns', async () => {
    const { proof, last } = open();
    for (let turn = 1; turn <= 20; turn += 1) proof.setView(viewFrom(turn));
    expect(frames).toHaveLength(1);
    await nextFrame();
    expect(last().painted).toEqual([20]);
    await last().finish();
    expect(frames).toHaveLength(0);
    proof.setSources(sources);
    expect(frames).toHaveLength(0);
  });

  it('waits for the picture before, and then draws the newest turn alone', async () => {
    const { proof, last } = open();
    proof.setView(viewFrom(1));
    await nextFrame();
    proof.setView(viewFrom(2));
    proof.setView(viewFrom(3));
    expect(frames).toHaveLength(0);
    await last().finish();
    await nextFrame();
    expect(last().painted).toEqual([1, 3]);
  });
});

it('shows pictures that came while others were loading', async () => {
  const { proof, last } = open();
  proof.setView(viewFrom(1));
  last().meanwhile = () => {
    last().meanwhile = () => undefined;
    proof.setSources({ ...sources, slots: [0, 0] });
  };
  await nextFrame();
  expect(last().loads).toBe(1);
  await last().finish();
  await nextFrame();
  expect(last().loads).toBe(2);
});

describe('when its worker does not draw any more', () => {
  it('goes on with another, on a canvas of its own, from the scene and view it had', async () => {
    const { proof, workers, troubles, host, last } = open();
    proof.setView(viewFrom(1));
    await nextFrame();
    const before = host.querySelector('canvas');
    last().told.onGone();
    await nextFrame();
    expect(workers).toHaveLength(2);
    expect(workers[0]?.ended).toBe(true);
    expect(last()).toMatchObject({ painted: [1], loads: 1, wish: 'best' });
    expect(host.querySelectorAll('canvas')).toHaveLength(1);
    expect(host.querySelector('canvas')).not.toBe(before);
    expect(troubles).toEqual([]);
  });

  it('tells after the third', () => {
    const { workers, troubles, host, last } = open();
    last().told.onGone();
    last().told.onGone();
    expect(troubles).toEqual([]);
    last().told.onGone();
    expect(workers).toHaveLength(3);
    expect(troubles).toEqual(['not-drawn']);
    expect(host.querySelector('canvas')).toBeNull();
  });

  it('does without the graphics card once that is gone for good, and tells', async () => {
    const { proof, troubles, last } = open();
    proof.setView(viewFrom(1));
    await nextFrame();
    last().told.onCardLost();
    await nextFrame();
    expect(last()).toMatchObject({ painted: [1], loads: 1, wish: 'processor' });
    expect(troubles).toEqual(['card-lost']);
  });
});
