// @ts-check
/**
 * What measured parallax takes, in processor seconds of one thread, and how right it is: 12 frames of 1200 × 1500 px,
 * averaged down to 800 across as in the studio, each pair matched both ways, coarsely and to the finest, then through the
 * whole sequence. The studio shares the pairs among its workers, and decodes the files besides.
 * The reference, pair by pair in turn: the same in plain TypeScript, as it was before kernels (reference/parallax).
 */
import { openModules } from './shared/modules.mjs';

const FRAMES = 12;
const [WIDTH, HEIGHT] = [1200, 1500];
const MATCHED_PX = 800;

/** Pixels of matching from frame to frame, above the middle and below. */
const SHIFTS = [1.3, -0.9].map((px) => (px * MATCHED_PX) / WIDTH);

const { load, close } = await openModules();

/** @typedef {{ columns: number, rows: number, shift: Float32Array }} Motion */
/** @typedef {Record<'matchPair' | 'motionThrough', (...given: any[]) => Generator<undefined, Motion>>} Way */

/** @param {Generator<undefined, Motion>} work */
const finished = (work) => {
  for (;;) {
    const step = work.next();
    if (step.done) return step.value;
  }
};

/** @param {number} seconds */
const say = (seconds) => `${seconds.toFixed(2).padStart(6)} s`;

/** How many places are told, and how many of them are right; those astride the two halves are left out. */
const rightness = (/** @type {Motion[]} */ motions) => {
  let [told, right] = [0, 0];
  for (const { columns, rows, shift } of motions)
    for (const [at, share] of shift.entries()) {
      const row = Math.floor(at / columns);
      if (Number.isNaN(share) || Math.abs(row + 0.5 - rows / 2) < 2) continue;
      told += 1;
      const moved = SHIFTS[row < rows / 2 ? 0 : 1] ?? NaN;
      if (Math.abs(share * MATCHED_PX - moved) <= 0.02) right += 1;
    }
  return `${told} places, ${((100 * right) / told).toFixed(2)} %`;
};

/** Rough ground: sums of waves of many lengths and turns, the lower half moving against the upper. */
const frame = (/** @type {number} */ index) => {
  const data = new Uint16Array(WIDTH * HEIGHT * 3);
  const waves = Array.from({ length: 8 }, (_, i) => ({
    turn: 2.4 * i,
    k: (2 * Math.PI) / (7 + 5 * i),
  }));
  for (let y = 0; y < HEIGHT; y += 1)
    for (let x = 0; x < WIDTH; x += 1) {
      const moved = x - (y < HEIGHT / 2 ? 1.3 : -0.9) * index;
      let sum = 0;
      for (const { turn, k } of waves)
        sum += Math.sin(k * (moved * Math.cos(turn) + y * Math.sin(turn)));
      data.fill(30000 + 3000 * sum, (y * WIDTH + x) * 3, (y * WIDTH + x) * 3 + 3);
    }
  return data;
};

try {
  const { loadKernels } = await load('/workers/kernels.ts');
  await loadKernels();
  const { planeOfLight, pyramidOf } = await load('/src/core/frames/parallax/plane.ts');
  /** @param {string} folder @returns {Promise<Way>} */
  const wayIn = async (folder) => {
    const { matchPair } = await load(`${folder}/pair.ts`);
    const { motionThrough } = await load(`${folder}/slope.ts`);
    return { matchPair, motionThrough };
  };
  /** @type {Record<'plain' | 'kernels', Way>} */
  const ways = {
    plain: await wayIn('/tests/bench/reference/parallax'),
    kernels: await wayIn('/src/core/frames/parallax'),
  };
  /** Every pair in both ways, one after the other. @param {(way: Way, index: number) => Generator<undefined, Motion>} work */
  const inTurn = (work) => {
    const told = {
      plain: { seconds: 0, motions: /** @type {Motion[]} */ ([]) },
      kernels: { seconds: 0, motions: /** @type {Motion[]} */ ([]) },
    };
    for (let index = 0; index + 1 < FRAMES; index += 1)
      for (const name of /** @type {const} */ (['plain', 'kernels'])) {
        const from = process.cpuUsage();
        told[name].motions.push(finished(work(ways[name], index)));
        const { user, system } = process.cpuUsage(from);
        told[name].seconds += (user + system) / 1e6;
      }
    return told;
  };
  const { trackOf } = await load('/src/core/frames/parallax/track.ts');
  const { resampleLinear } = await load('/src/core/weave/reduce.ts');
  const { axisMap, evenEdges } = await load('/src/core/weave/resample.ts');
  const rows = Math.round((HEIGHT * MATCHED_PX) / WIDTH);
  const sources = Array.from({ length: FRAMES }, (_, index) => ({
    widthPx: WIDTH,
    heightPx: HEIGHT,
    channels: 3,
    encoding: 'light16',
    data: frame(index),
  }));

  const pyramids = sources.map((source) => {
    const light = resampleLinear(
      source,
      axisMap(evenEdges(MATCHED_PX, WIDTH), WIDTH),
      axisMap(evenEdges(rows, HEIGHT), HEIGHT),
      0,
    );
    return pyramidOf(planeOfLight(light.columns, light.rows, light.pixels));
  });
  const planes = new Map(pyramids.map(([finest], index) => [index, finest]));

  /** @param {number} downTo */
  const matched = (downTo) =>
    inTurn((way, index) =>
      way.matchPair(pyramids[index], pyramids[index + 1], { ribs: 'upright', downTo }),
    );
  const coarse = matched(2);
  const fine = matched(0);
  const track = trackOf(fine.kernels.motions, MATCHED_PX);
  const through = inTurn((way, index) =>
    way.motionThrough(planes, fine.kernels.motions[index], { index, ribs: 'upright', track }),
  );

  console.log(`${FRAMES} frames of ${WIDTH} × ${HEIGHT}, matched at ${MATCHED_PX} × ${rows}`);
  console.log(
    'processor seconds of one thread, places told, and of those the share within 0.02 px',
  );
  for (const [name, told] of Object.entries({
    'first look': coarse,
    'to the finest': fine,
    'through all': through,
  }))
    for (const [way, { seconds, motions }] of Object.entries(told))
      console.log(`  ${name.padEnd(14)} ${way.padEnd(10)} ${say(seconds)}, ${rightness(motions)}`);
} finally {
  await close();
}
